"""A context that is used again has nothing left of who had it before."""

from typing import Any

from playwright.sync_api import Page

STORE = """async () => {
  localStorage.setItem('kept', '1');
  document.cookie = 'kept=1; max-age=1000';
  await (await caches.open('kept')).put('/kept', new Response('1'));
  await new Promise((done, fail) => {
    const asked = indexedDB.open('kept');
    Object.assign(asked, {onsuccess: () => { asked.result.close(); done(); }, onerror: fail});
  });
}"""
STORED = """async () => [
  localStorage.length, document.cookie, await caches.keys(), await indexedDB.databases(),
  (await navigator.permissions.query({name: 'clipboard-read'})).state,
]"""
FETCHED = "(path) => fetch(path, {cache: 'only-if-cached', mode: 'same-origin'}).then(({ok}) => ok, () => false)"
NOTHING = [0, "", [], [], "prompt"]
KIND = {"service_workers": "block", "bypass_csp": True}
"""Whoever opens this may fetch from a page that may not."""


def at(context: Any, server: str) -> Page:
    page: Page = context.new_page()
    page.goto(f"{server}/healthz")
    return page


def test_nothing_is_left_in_a_context_that_is_used_again(profiles: Any, server: str) -> None:
    with profiles.lend(**KIND):
        pass  # a kind that is asked for once is not kept
    with profiles.lend(**KIND) as context:
        page = at(context, server)
        assert page.evaluate(STORED) == NOTHING
        page.evaluate(STORE)
        page.evaluate("fetch('style.css').then((answer) => answer.text())")
        context.grant_permissions(["clipboard-read"])
        assert page.evaluate(FETCHED, "style.css")
        stored = page.evaluate(STORED)
        assert all(now != before for now, before in zip(stored, NOTHING, strict=True)), stored
    with profiles.lend(**KIND) as again:
        assert again is context
        page = at(again, server)
        assert page.evaluate(STORED) == NOTHING
        assert not page.evaluate(FETCHED, "style.css")


def test_who_wants_two_has_two(profiles: Any, server: str) -> None:
    with profiles.lend(**KIND) as one, profiles.lend(**KIND) as other:
        assert one is not other
        at(one, server).evaluate(STORE)
        assert at(other, server).evaluate(STORED) == NOTHING


def test_another_kind_is_another_context(profiles: Any) -> None:
    with profiles.lend(service_workers="block", locale="es-MX") as spanish:
        assert spanish.new_page().evaluate("navigator.language") == "es-MX"
    with profiles.lend(service_workers="block", locale="en-US") as english:
        assert english.new_page().evaluate("navigator.language") == "en-US"
