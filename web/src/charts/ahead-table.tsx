/** The core's next hours as a table, for those who read tables. */
import type { SeriesAnswer } from '../../../shared/contracts/series.ts';
import { useReader } from '../data/live/use-installation.ts';
import { usePrefs } from '../data/prefs.ts';
import { dayAndTime } from '../ui/format/local-time.ts';
import { plainNumber, tempIn, unitSigns } from '../ui/format/temperature.ts';
import { Scrollable } from '../ui/parts/scrollable.tsx';
import { fanOf } from './chart-data.ts';
import { useChartWords } from './use-chart-words.ts';
import '../ui/parts/scrollable.css';
import './charts.css';

export function AheadTable({ series, site }: { readonly series: SeriesAnswer; readonly site: string }) {
  const { text } = useChartWords();
  const { unit } = usePrefs();
  const reader = useReader(site);
  const fan = fanOf(series);
  if (fan.length === 0) return null;
  const whole = (tempC: number) => plainNumber(tempIn(unit, tempC), 0);
  return (
    <Scrollable class="table-scroll ahead-table" label={text('page-chart.ahead-table')}>
      <table class="series-table">
        <caption>{text('page-chart.ahead-table.says')}</caption>
        <thead>
          <tr>
            <th scope="col">{text('page-chart.table.time')}</th>
            <th scope="col">{text('page-chart.ahead-table.likely', { unitText: unitSigns[unit] })}</th>
            <th scope="col">{text('page-chart.ahead-table.between', { unitText: unitSigns[unit] })}</th>
          </tr>
        </thead>
        <tbody>
          {fan.map(({ atMs, lowC, midC, highC }) => (
            <tr key={atMs}>
              <th scope="row">{dayAndTime(atMs, reader)}</th>
              <td>{whole(midC)}</td>
              <td>{text('page-chart.table.range', { lowText: whole(lowC), highText: whole(highC) })}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </Scrollable>
  );
}
