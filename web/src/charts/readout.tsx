/** What stood at the instant under the finger or pointer. */
import type { SeriesAnswer } from '../../../shared/contracts/series.ts';
import { usePrefs } from '../data/prefs.ts';
import { dayAndTime, type Reader } from '../ui/format/local-time.ts';
import { readingWords } from '../ui/format/quantity-words.ts';
import { plainNumber, tempIn } from '../ui/format/temperature.ts';
import { type BandAt, bandAt, bandOf, type Line, type QuantityLines, valueNear } from './chart-data.ts';
import { useChartWords } from './use-chart-words.ts';
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
  const { text } = useChartWords();
  const { unit } = usePrefs();
  const whole = (valueC: number) => ({ valueC, decimals: 0 }) as const;
  if (instantMs === null) return <p class="readout quiet">{text('page-chart.readout')}</p>;
  const expected = bandAt(bandOf(series.expected.points), instantMs);
  const read = ({ quantity, lines }: { quantity: QuantityLines['quantity'] | 'temperature'; lines: readonly Line[] }) =>
    lines.flatMap(({ position, points }) => {
      const value = valueNear(points, instantMs, 2 * series.bucketMs);
      return value === undefined
        ? []
        : [text('page-chart.readout.value', { position, valueText: readingWords(quantity, value, unit) })];
    });
  const band = expected
    ? [
        text('page-chart.readout.expected', {
          lowText: plainNumber(tempIn(unit, expected.lowC), 0),
          highC: whole(expected.highC),
        }),
      ]
    : [];
  const point = bandAt(fan, instantMs);
  const ahead = point
    ? [
        text('page-chart.readout.ahead', {
          lowText: plainNumber(tempIn(unit, point.lowC), 0),
          highC: whole(point.highC),
          middleC: whole(point.midC),
        }),
      ]
    : [];
  const values = [...read({ quantity: 'temperature', lines: heat }), ...band, ...ahead, ...others.flatMap(read)];
  return (
    <p class="readout">
      <b>{dayAndTime(instantMs, reader)}</b> {values.join(' · ') || text('page-chart.readout.none')}
    </p>
  );
}
