// Keys: one tap is one step, and a key that is held repeats. The screen stays on while the page is in sight.
const FIRST_MS = 500;
const NEXT_MS = 110;

/** Calls `tapped` for every tap of a key of a part of the page, and again and again while one of lengths is held. @param {Element} root @param {(key: HTMLElement) => void} tapped */
export function listenToKeys(root, tapped) {
  let timer = 0;
  let isRepeated = false;
  const keyOf = (/** @type {Event} */ event) =>
    /** @type {HTMLElement | null} */ (/** @type {Element} */ (event.target).closest('[data-do]'));
  const stop = () => clearTimeout(timer);
  root.addEventListener('click', (event) => {
    const key = keyOf(event);
    stop();
    if (key && !isRepeated) tapped(key);
    isRepeated = false;
  });
  root.addEventListener('pointerdown', (event) => {
    const key = keyOf(event);
    isRepeated = false;
    stop();
    if (!key || !/^(edge|run)$/.test(key.dataset.do ?? '')) return;
    const again = () => {
      isRepeated = true;
      tapped(key);
      timer = window.setTimeout(again, NEXT_MS);
    };
    timer = window.setTimeout(again, FIRST_MS);
  });
  for (const end of ['pointerup', 'pointercancel', 'pointerleave']) root.addEventListener(end, stop);
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
