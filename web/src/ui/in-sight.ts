/** Who is on the screen, or nearly: one observer for all who ask. */
const followed = new WeakMap<Element, (isSeen: boolean) => void>();
let observer: IntersectionObserver | undefined;

/** @param hear Called as soon as it is known, and whenever it changes. */
export function followSight(element: Element, hear: (isSeen: boolean) => void): void {
  observer ??= new IntersectionObserver(
    (entries) => {
      for (const { target, isIntersecting } of entries) followed.get(target)?.(isIntersecting);
    },
    { rootMargin: '50%' },
  );
  followed.set(element, hear);
  observer.observe(element);
}

export function leaveSight(element: Element): void {
  observer?.unobserve(element);
  followed.delete(element);
}
