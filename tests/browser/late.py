"""Answers and modules that are held on their way, so that what comes late comes in an order that is known."""

from playwright.sync_api import Page, Route


def holding(page: Page, pattern: str) -> list[Route]:
    """What is asked for from now on under such addresses waits here until it is let go."""
    held: list[Route] = []
    page.route(pattern, lambda route: held.append(route))
    return held


def let_go(page: Page, route: Route) -> None:
    """The answer comes, and the page has a moment to do with it what it must not."""
    with page.expect_response(lambda response: response.request == route.request) as came:
        route.continue_()
    came.value.finished()
    page.wait_for_timeout(150)


def await_held(page: Page, held: list[Route], count: int) -> None:
    """Wait until so many are held; a page that never asks fails the test after 15 s."""
    for _ in range(750):
        if len(held) >= count:
            return
        page.wait_for_timeout(20)
    raise AssertionError(f"{len(held)} of {count} were asked for")
