// Keys: one tap is one step, and a key that is held repeats. The screen stays on while the page is in sight.
const FIRST_MS = 500;
const NEXT_MS = 110;

/** @param {Event} event */
const keyOf = ({target}) => /** @type {HTMLElement | null} */ (/** @type {Element} */ (target).closest('[data-do]'));

/** Calls `tapped` for every tap of a key of a part of the page, and again and again while one of lengths is held. @param {Element} root @param {(key: HTMLElement) => void} tapped */
export function listenToKeys(root, tapped) {
  const held = {timer: 0, isRepeated: false};
  const stop = () => clearTimeout(held.timer);
  root.addEventListener('click', (event) => {
    const key = keyOf(event);
    stop();
    if (key && !held.isRepeated) tapped(key);
    held.isRepeated = false;
  });
  root.addEventListener('pointerdown', (event) => {
    const key = keyOf(event);
    stop();
    held.isRepeated = false;
    if (key && /^(edge|run)$/.test(key.dataset.do ?? '')) hold(held, () => tapped(key));
  });
  for (const end of ['pointerup', 'pointercancel', 'pointerleave']) root.addEventListener(end, stop);
}

/** @param {{timer: number, isRepeated: boolean}} held @param {() => void} act */
function hold(held, act) {
  const again = () => {
    held.isRepeated = true;
    act();
    held.timer = window.setTimeout(again, NEXT_MS);
  };
  held.timer = window.setTimeout(again, FIRST_MS);
}

/** Keeps the screen on where the browser can; `told` hears whether it does. @param {(isOn: boolean) => void} told */
export function keepAwake(told) {
  const ask = async () => {
    if (document.visibilityState !== 'visible') return;
    try {
      const lock = await navigator.wakeLock.request('screen');
      told(true);
      lock.addEventListener('release', () => told(false));
    } catch {
      told(false);
    }
  };
  document.addEventListener('visibilitychange', ask);
  ask();
}
