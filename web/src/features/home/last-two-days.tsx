/** A pile's core over the last two days and the next, small. Fetched when it comes into sight, once the sentences stand. */
import { useEffect, useRef, useState } from 'preact/hooks';
import type { PileSummary } from '../../../../shared/contracts/piles.ts';
import './last-two-days.css';

type Curve = typeof import('./small-curve.tsx').SmallCurve;

export function LastTwoDays({ pile }: { readonly pile: PileSummary }) {
  const frame = useRef<HTMLDivElement>(null);
  const [loaded, setLoaded] = useState<{ Curve: Curve }>();
  const isDrawn = pile.batch !== null && pile.positions.core !== undefined;
  useEffect(() => {
    const seen = frame.current;
    if (!seen) return;
    const observer = new IntersectionObserver(([entry]) => {
      if (!entry?.isIntersecting) return;
      observer.disconnect();
      void import('./small-curve.tsx').then(({ SmallCurve }) => setLoaded({ Curve: SmallCurve }));
    });
    observer.observe(seen);
    return () => observer.disconnect();
  }, [isDrawn]);
  if (!isDrawn) return null;
  return (
    <div class="last-two-days" ref={frame}>
      {loaded && <loaded.Curve pile={pile} />}
    </div>
  );
}
