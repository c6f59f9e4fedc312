/** A pile's core over the last two days and the next, small. Fetched when it comes into sight, once the sentences stand. */
import { useEffect, useRef, useState } from 'preact/hooks';
import type { PileSummary } from '../../../../shared/contracts/piles.ts';
import { followSight, leaveSight } from '../../ui/in-sight.ts';
import { loadSoon } from '../../ui/load-soon.ts';
import './last-two-days.css';

const useSmallCurve = loadSoon(() => import('./small-curve.tsx'));

export function LastTwoDays({ pile }: { readonly pile: PileSummary }) {
  const frame = useRef<HTMLDivElement>(null);
  const [isSeen, setIsSeen] = useState(false);
  const { loaded } = useSmallCurve(isSeen);
  const isDrawn = pile.batch !== null && pile.positions.core !== undefined;
  useEffect(() => {
    const seen = frame.current;
    if (!seen) return;
    followSight(seen, (isNear) => {
      if (!isNear) return;
      leaveSight(seen);
      setIsSeen(true);
    });
    return () => leaveSight(seen);
  }, [isDrawn]);
  if (!isDrawn) return null;
  return (
    <div class="last-two-days" ref={frame}>
      {isSeen && loaded && <loaded.SmallCurve pile={pile} />}
    </div>
  );
}
