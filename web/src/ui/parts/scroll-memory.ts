/** How far down each address was read, for whoever goes back to it. Never forgotten by itself: there are few addresses in a visit. */
const readDownTo = new Map<string, number>();
/** Set from going back or on until the page that was gone to stands. */
let wanted: number | undefined;

const address = () => location.pathname + location.search;

/** @returns Where the page that now stands is to be scrolled to [px]: where it was left when somebody went back to it, else its top. */
export function takeScrollPlace(): number {
  const top = wanted ?? 0;
  wanted = undefined;
  return top;
}

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
