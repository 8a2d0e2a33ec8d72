// What a small screen in a hand needs, of a phone or of a page enlarged fourfold: the bar at its foot covers nothing that
// is typed in (WCAG 2.2, 2.4.11) and stands above a keyboard that lies over the page. This module comes with the first
// field that is entered there.
import {find} from './dom.js';

// a view beside the quote has none
const bar = find('#foot');
const form = find('#job');
const GAP = 8;

/** Where a keyboard lies over the page and not below it, the bar is lifted above it; who enlarges with two fingers sees it where it is. */
function liftBar() {
  const {height, offsetTop, scale} = visualViewport ?? {height: innerHeight, offsetTop: 0, scale: 1};
  bar.style.bottom = scale > 1 ? '' : `${Math.max(0, innerHeight - height - offsetTop)}px`;
}

/** What has the focus comes out from under the bar, its head first where it is taller than what is left. */
function keepClear() {
  liftBar();
  const field = document.activeElement;
  if (bar.hidden || !field || !form.contains(field)) return;
  const {top, bottom} = field.getBoundingClientRect();
  const covered = bottom - bar.getBoundingClientRect().top;
  if (covered > 0 && top < innerHeight) scrollBy({top: Math.min(covered + GAP, top - GAP), behavior: 'instant'});
}

if (bar) {
  // the bar comes and grows, and what is said beside fields moves those below
  const sizes = new ResizeObserver(keepClear);
  for (const part of [bar, form]) sizes.observe(part);
  for (const event of ['resize', 'scroll']) visualViewport?.addEventListener(event, keepClear);
}
