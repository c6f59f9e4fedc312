/** How far down each address was read, for whoever goes back to it. Never forgotten by itself: there are few addresses in a visit. */
const readDownTo = new Map<string, number>();
/** Set from going back or on until the page that was gone to stands. */
let wanted: number | undefined;

const address = () => location.pathname + location.search;

/**
 * To where the page that now stands was left when somebody went back to it, else to its top. What it shows may still be on its way:
 * the place is taken once the page is long enough, unless its reader is quicker.
 * @returns Gives up waiting.
 */
export function scrollToPlace(): () => void {
  const top = wanted ?? 0;
  wanted = undefined;
  scrollTo(0, top);
  const growth = new ResizeObserver(() => {
    if (scrollY < top) scrollTo(0, top);
    if (scrollY >= top - 1) stop();
  });
  const stop = () => {
    growth.disconnect();
    for (const act of acts) removeEventListener(act, stop);
  };
  for (const act of acts) addEventListener(act, stop, { passive: true });
  growth.observe(document.body);
  return stop;
}

/** By which a reader takes the page elsewhere. */
const acts = ['wheel', 'touchstart', 'keydown', 'pointerdown'] as const;

if (typeof window !== 'undefined') {
  history.scrollRestoration = 'manual';
  addEventListener(
    'popstate',
    () => {
      wanted = readDownTo.get(address());
    },
    { capture: true },
  );
  addEventListener(
    'scroll',
    () => {
      // While a page goes away its place is not the reader's.
      if (wanted === undefined) readDownTo.set(address(), scrollY);
    },
    { passive: true },
  );
}
