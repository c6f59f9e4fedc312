/** What a chart shows, in words. */
import { dayAndTime, type Reader } from '../ui/format/local-time.ts';
import { capital, positionNames } from '../ui/format/words.ts';
import type { Line } from './chart-data.ts';

/** @example "Core from 21.0 to 47.3 °C, highest on Tue 3 Mar, 14:00, last 44.1 °C." */
export function chartSummary(lines: readonly Line[], say: (value: number) => string, reader: Reader): string {
  const sentences = lines.flatMap(({ position, points, arePoints = false }) => {
    const known = points.filter((point): point is { atMs: number; value: number } => point.value !== null);
    const last = known.at(-1);
    if (!last) return [];
    const lowest = known.reduce((low, point) => (point.value < low.value ? point : low));
    const highest = known.reduce((high, point) => (point.value > high.value ? point : high));
    return [
      `${capital(positionNames[position])}${arePoints ? ' by hand' : ''} from ${say(lowest.value)} to ${say(highest.value)}, highest on ${dayAndTime(highest.atMs, reader)}, last ${say(last.value)}.`,
    ];
  });
  return sentences.length === 0 ? 'Nothing was read in this time.' : sentences.join(' ');
}
