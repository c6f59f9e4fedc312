/** How likely the core is to pass its limit, and where it goes in the next day, in words. */
import type { PileDetail } from '../../../../shared/contracts/piles.ts';
import type { SeriesAnswer } from '../../../../shared/contracts/series.ts';
import { fanOf } from '../../charts/chart-data.ts';
import { fanWords } from '../../charts/fan-words.ts';
import { useChartWords } from '../../charts/use-chart-words.ts';
import { useReader, useServerNow } from '../../data/live/use-installation.ts';
import { usePrefs } from '../../data/prefs.ts';
import { overWords } from './ahead-words.ts';
import { AirAhead } from './air-ahead.tsx';
import { usePileWords } from './use-pile-words.ts';
import './ahead.css';

interface AheadProps {
  readonly pile: PileDetail;
  readonly series: SeriesAnswer | undefined;
}

/** Whether the core passes its limit: above the chart. */
export function Ahead({ pile }: Pick<AheadProps, 'pile'>) {
  const nowMs = useServerNow();
  const reader = useReader(pile.site);
  const words = usePileWords(pile.site);
  const limitC = pile.limits.actC?.value;
  if (!pile.batch || !pile.judgement || limitC === undefined) return null;
  const { core } = pile.positions;
  const coreC = core && !core.silent && !core.doubted ? (core.temperatureC ?? null) : null;
  const over = coreC === null ? null : pile.judgement.overLimit;
  return <p class="ahead-over">{overWords(over, limitC, coreC, { nowMs, reader }, words)}</p>;
}

/** Where the core goes in the next day, and by which air: what the fan of the chart says, in words. */
export function AheadInWords({ pile, series }: AheadProps) {
  const words = useChartWords();
  const { unit } = usePrefs();
  const nowMs = useServerNow();
  if (!pile.batch || !pile.judgement || pile.limits.actC === undefined) return null;
  const fan = series && fanOf(series);
  const goes = fan && fanWords(fan, { nowMs, unit }, words);
  return (
    <div class="ahead">
      {goes && <p class="ahead-fan">{goes}</p>}
      <AirAhead airAhead={pile.airAhead} />
    </div>
  );
}
