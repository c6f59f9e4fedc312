/** The charts' data as a table. */
import { useMemo } from 'preact/hooks';
import type { Bucket, SeriesAnswer } from '../../../shared/contracts/series.ts';
import type { PileQuantity } from '../../../shared/quantity.ts';
import { useReader } from '../data/live/use-installation.ts';
import { usePrefs } from '../data/prefs.ts';
import { dayAndTime } from '../ui/format/local-time.ts';
import { figure, shortName, signOf } from '../ui/format/quantity-words.ts';
import { plainNumber, type TempUnit, tempIn, unitSigns } from '../ui/format/temperature.ts';
import { Scrollable } from '../ui/parts/scrollable.tsx';
import { tableOf } from './chart-data.ts';
import { type ChartWords, useChartWords } from './use-chart-words.ts';
import '../ui/parts/scrollable.css';

/** @example headingWords('co2', 'C') // => "CO₂, ppm" */
function headingWords(quantity: PileQuantity, unit: TempUnit): string {
  return quantity === 'temperature' ? unitSigns[unit] : `${shortName(quantity)}, ${signOf(quantity)}`;
}

function cellText(bucket: Bucket | null, quantity: PileQuantity, unit: TempUnit, { text }: ChartWords): string {
  if (!bucket) return '–';
  const say = (value: number) => figure(quantity, quantity === 'temperature' ? tempIn(unit, value) : value);
  const [lowText, meanText, highText] = [say(bucket.min), say(bucket.mean), say(bucket.max)];
  return lowText === highText ? meanText : text('page-chart.table.cell', { meanText, lowText, highText });
}

export function SeriesTable({ series, site }: { readonly series: SeriesAnswer; readonly site: string }) {
  const words = useChartWords();
  const { text } = words;
  const { unit } = usePrefs();
  const reader = useReader(site);
  const { columns, rows } = useMemo(() => tableOf(series), [series]);
  if (rows.length === 0) return <p class="quiet">{text('page-chart.nothing')}</p>;
  const whole = (tempC: number) => plainNumber(tempIn(unit, tempC), 0);
  const hasBand = rows.some((row) => row.expected);
  return (
    <Scrollable class="table-scroll" label={text('page-chart.table')}>
      <table class="series-table">
        <caption>
          {text('page-chart.table.says', { minutesCount: Math.max(1, Math.round(series.bucketMs / 60_000)) })}
        </caption>
        <thead>
          <tr>
            <th scope="col">{text('page-chart.table.time')}</th>
            {columns.map(({ position, quantity }) => (
              <th scope="col" key={`${position}-${quantity}`}>
                {text('page-chart.table.column', { position, quantityText: headingWords(quantity, unit) })}
              </th>
            ))}
            {hasBand && <th scope="col">{text('page-chart.table.expected', { unitText: unitSigns[unit] })}</th>}
          </tr>
        </thead>
        <tbody>
          {rows.map(({ atMs, cells, expected }) => (
            <tr key={atMs}>
              <th scope="row">{dayAndTime(atMs, reader)}</th>
              {columns.map(({ position, quantity }, i) => (
                <td key={`${position}-${quantity}`}>{cellText(cells[i] ?? null, quantity, unit, words)}</td>
              ))}
              {hasBand && (
                <td>
                  {expected
                    ? text('page-chart.table.range', { lowText: whole(expected.lowC), highText: whole(expected.highC) })
                    : '–'}
                </td>
              )}
            </tr>
          ))}
        </tbody>
      </table>
    </Scrollable>
  );
}
