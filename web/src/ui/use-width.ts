/** How wide a drawing's place is, so that its letters keep their size on every screen. */
import { useEffect, useRef, useState } from 'preact/hooks';

/** @param least Below this letters would lie over each other; what is wider than its place is cut off. */
export function useWidth(first: number, least = 240) {
  const place = useRef<HTMLDivElement>(null);
  const [width, setWidth] = useState(first);
  useEffect(() => {
    if (!place.current) return;
    const watch = new ResizeObserver(([entry]) => {
      if (entry) setWidth(Math.max(least, Math.round(entry.contentRect.width)));
    });
    watch.observe(place.current);
    return () => watch.disconnect();
  }, []);
  return { place, width };
}
