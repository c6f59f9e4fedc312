/** What stood at the instant under the finger or pointer. */
import type { SeriesAnswer } from '../../../shared/contracts/series.ts';
import { usePrefs } from '../data/prefs.ts';
import { dayAndTime, type Reader } from '../ui/format/local-time.ts';
import { readingWords } from '../ui/format/quantity-words.ts';
import { formatTemp, plainNumber, tempIn } from '../ui/format/temperature.ts';
import { positionNames } from '../ui/format/words.ts';
import { type BandAt, bandAt, bandOf, type Line, type QuantityLines, valueNear } from './chart-data.ts';
import './charts.css';

interface ReadoutProps {
  readonly instantMs: number | null;
  readonly series: SeriesAnswer;
  readonly heat: readonly Line[];
  readonly fan: readonly BandAt[];
  readonly others: readonly QuantityLines[];
  readonly reader: Reader;
}

export function Readout({ instantMs, series, heat, fan, others, reader }: ReadoutProps) {
  const { unit } = usePrefs();
  if (instantMs === null) return <p class="readout quiet">Point at the chart to read it off.</p>;
  const expected = bandAt(bandOf(series.expected.points), instantMs);
  const read = ({ quantity, lines }: { quantity: QuantityLines['quantity'] | 'temperature'; lines: readonly Line[] }) =>
    lines.flatMap(({ position, points }) => {
      const value = valueNear(points, instantMs, 2 * series.bucketMs);
      return value === undefined ? [] : [`${positionNames[position]} ${readingWords(quantity, value, unit)}`];
    });
  const band = expected
    ? [`expected ${plainNumber(tempIn(unit, expected.lowC), 0)} to ${formatTemp(expected.highC, unit, 0)}`]
    : [];
  const point = bandAt(fan, instantMs);
  const ahead = point
    ? [
        `ahead ${plainNumber(tempIn(unit, point.lowC), 0)} to ${formatTemp(point.highC, unit, 0)}, most likely ${formatTemp(point.midC, unit, 0)}`,
      ]
    : [];
  const values = [...read({ quantity: 'temperature', lines: heat }), ...band, ...ahead, ...others.flatMap(read)];
  return (
    <p class="readout">
      <b>{dayAndTime(instantMs, reader)}</b> {values.join(' · ') || 'nothing read'}
    </p>
  );
}
