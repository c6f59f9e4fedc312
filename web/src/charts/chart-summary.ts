/** What a chart shows, in words. */
import { dayAndTime, type Reader } from '../ui/format/local-time.ts';
import type { Line } from './chart-data.ts';
import type { ChartWords } from './use-chart-words.ts';

/** @example "Core from 21.0 to 47.3 °C, highest on Tue 3 Mar, 14:00, last 44.1 °C." */
export function chartSummary(
  lines: readonly Line[],
  say: (value: number) => string,
  reader: Reader,
  { text }: Pick<ChartWords, 'text'>,
): string {
  const sentences = lines.flatMap(({ position, points, arePoints = false }) => {
    const known = points.filter((point): point is { atMs: number; value: number } => point.value !== null);
    const last = known.at(-1);
    if (!last) return [];
    const lowest = known.reduce((low, point) => (point.value < low.value ? point : low));
    const highest = known.reduce((high, point) => (point.value > high.value ? point : high));
    return [
      text('page-chart.line', {
        position,
        isByHand: arePoints,
        lowestText: say(lowest.value),
        highestText: say(highest.value),
        timeText: dayAndTime(highest.atMs, reader),
        lastText: say(last.value),
      }),
    ];
  });
  const [first, ...others] = sentences;
  if (first === undefined) return text('page-chart.nothing');
  return others.reduce((beforeText, nextText) => text('page-chart.next-sentence', { beforeText, nextText }), first);
}
