/** The core's next hours as a table, for those who read tables. */
import type { SeriesAnswer } from '../../../shared/contracts/series.ts';
import { useReader } from '../data/live/use-installation.ts';
import { usePrefs } from '../data/prefs.ts';
import { dayAndTime } from '../ui/format/local-time.ts';
import { plainNumber, tempIn, unitSigns } from '../ui/format/temperature.ts';
import { Scrollable } from '../ui/parts/scrollable.tsx';
import { fanOf } from './chart-data.ts';
import '../ui/parts/scrollable.css';
import './charts.css';

export function AheadTable({ series, site }: { readonly series: SeriesAnswer; readonly site: string }) {
  const { unit } = usePrefs();
  const reader = useReader(site);
  const fan = fanOf(series);
  if (fan.length === 0) return null;
  const whole = (tempC: number) => plainNumber(tempIn(unit, tempC), 0);
  return (
    <Scrollable class="table-scroll ahead-table" label="The day ahead as a table">
      <table class="series-table">
        <caption>
          The core hour by hour ahead, if nobody touches the pile; eight of ten cases keep between the two.
        </caption>
        <thead>
          <tr>
            <th scope="col">Time</th>
            <th scope="col">Most likely, {unitSigns[unit]}</th>
            <th scope="col">Between, {unitSigns[unit]}</th>
          </tr>
        </thead>
        <tbody>
          {fan.map(({ atMs, lowC, midC, highC }) => (
            <tr key={atMs}>
              <th scope="row">{dayAndTime(atMs, reader)}</th>
              <td>{whole(midC)}</td>
              <td>
                {whole(lowC)} to {whole(highC)}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </Scrollable>
  );
}
