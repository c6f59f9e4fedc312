/** The charts' data as a table. */
import { useMemo } from 'preact/hooks';
import type { Bucket, SeriesAnswer } from '../../../shared/contracts/series.ts';
import type { PileQuantity } from '../../../shared/quantity.ts';
import { useReader } from '../data/live/use-installation.ts';
import { usePrefs } from '../data/prefs.ts';
import { dayAndTime } from '../ui/format/local-time.ts';
import { figure, shortName, signOf } from '../ui/format/quantity-words.ts';
import { plainNumber, type TempUnit, tempIn, unitSigns } from '../ui/format/temperature.ts';
import { capital, positionNames } from '../ui/format/words.ts';
import { Scrollable } from '../ui/parts/scrollable.tsx';
import { tableOf } from './chart-data.ts';
import '../ui/parts/scrollable.css';

/** @example headingWords('co2', 'C') // => "CO₂, ppm" */
function headingWords(quantity: PileQuantity, unit: TempUnit): string {
  return quantity === 'temperature' ? unitSigns[unit] : `${shortName(quantity)}, ${signOf(quantity)}`;
}

function cellText(bucket: Bucket | null, quantity: PileQuantity, unit: TempUnit): string {
  if (!bucket) return '–';
  const say = (value: number) => figure(quantity, quantity === 'temperature' ? tempIn(unit, value) : value);
  const [min, mean, max] = [say(bucket.min), say(bucket.mean), say(bucket.max)];
  return min === max ? mean : `${mean} (${min} to ${max})`;
}

export function SeriesTable({ series, site }: { readonly series: SeriesAnswer; readonly site: string }) {
  const { unit } = usePrefs();
  const reader = useReader(site);
  const { columns, rows } = useMemo(() => tableOf(series), [series]);
  if (rows.length === 0) return <p class="quiet">Nothing was read in this time.</p>;
  const hasBand = rows.some((row) => row.expected);
  return (
    <Scrollable class="table-scroll" label="Readings as a table">
      <table class="series-table">
        <caption>
          Newest first; each row gathers {Math.max(1, Math.round(series.bucketMs / 60_000))} min: mean, and from lowest
          to highest where they differ.
        </caption>
        <thead>
          <tr>
            <th scope="col">Time</th>
            {columns.map(({ position, quantity }) => (
              <th scope="col" key={`${position}-${quantity}`}>
                {capital(positionNames[position])}, {headingWords(quantity, unit)}
              </th>
            ))}
            {hasBand && <th scope="col">Expected core, {unitSigns[unit]}</th>}
          </tr>
        </thead>
        <tbody>
          {rows.map(({ atMs, cells, expected }) => (
            <tr key={atMs}>
              <th scope="row">{dayAndTime(atMs, reader)}</th>
              {columns.map(({ position, quantity }, i) => (
                <td key={`${position}-${quantity}`}>{cellText(cells[i] ?? null, quantity, unit)}</td>
              ))}
              {hasBand && (
                <td>
                  {expected
                    ? `${plainNumber(tempIn(unit, expected.lowC), 0)} to ${plainNumber(tempIn(unit, expected.highC), 0)}`
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
