import type { PileSummary } from '../../../../shared/contracts/piles.ts';
import { toInstant } from '../../../../shared/contracts/time.ts';
import { pageHomeTexts } from '../../../../shared/messages/made/en/page-home.ts';
import { formatTemp } from '../../../../shared/temperature.ts';
import { msPerDay } from '../../../../shared/units.ts';
import { usePageTexts } from '../../data/live/page-texts.ts';
import { useServerNow } from '../../data/live/use-installation.ts';
import { usePrefs } from '../../data/prefs.ts';
import { getSeries } from '../../data/routes.ts';
import { useQuery, useThrottled } from '../../data/use-query.ts';
import { curveShape } from './curve-shape.ts';
import './small-curve.css';

const backMs = 2 * msPerDay;
const points = 48;
const refetchEveryMs = 60_000;

export function SmallCurve({ pile }: { readonly pile: PileSummary }) {
  const { unit } = usePrefs();
  const { text } = usePageTexts(pageHomeTexts);
  const nowMs = useServerNow();
  const startMs = pile.batch ? Math.max(Date.parse(pile.batch.startedAt), nowMs - backMs) : nowMs;
  const { value: series, refresh } = useQuery(`${pile.id} ${pile.batch?.id}`, () =>
    getSeries(pile.id, toInstant(Math.floor(startMs)), toInstant(Math.ceil(nowMs)), points),
  );
  useThrottled(pile.positions.core?.at, refetchEveryMs, () => void refresh());
  const shape = series && curveShape(series, pile.batch?.heat?.actC);
  if (!shape) return null;
  const [first, now, then] = [shape.firstC, shape.lastC, shape.aheadC].map((tempC) =>
    tempC === undefined ? '' : formatTemp(tempC, unit, 0),
  );
  const words = text('page-home.curve', {
    firstText: first ?? '',
    nowText: now ?? '',
    isAheadKnown: then !== '',
    thenText: then ?? '',
  });
  return (
    <svg class="small-curve" viewBox="0 0 200 48" preserveAspectRatio="none" role="img" aria-label={words}>
      {shape.limitY !== undefined && <path class="small-curve-limit" d={`M0 ${shape.limitY}H200`} />}
      <path class="small-curve-past" d={shape.past} />
      {shape.ahead && <path class="small-curve-ahead" d={shape.ahead} />}
      <path class="small-curve-now" d={`M${shape.nowX} 0V48`} />
    </svg>
  );
}
