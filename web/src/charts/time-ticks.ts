/** Where an axis of time is marked, on the wall clock of the reader's zone. */
import { msPerDay, msPerHour, msPerMinute } from '../../../shared/units.ts';
import { instantOf, wallOf } from '../../../shared/zoned-time.ts';
import { clockTime, type Reader, shortDay } from '../ui/format/local-time.ts';

const stepsMs = [
  ...[1, 2, 5, 10, 15, 30].map((minutes) => minutes * msPerMinute),
  ...[1, 2, 3, 6, 12].map((hours) => hours * msPerHour),
  ...[1, 2, 7, 14, 28, 56, 112, 224, 448, 896].map((days) => days * msPerDay),
];

export interface TimeTick {
  readonly atMs: number;
  readonly label: string;
  /** A local midnight. */
  readonly isDay: boolean;
}

export function timeTicks(fromMs: number, toMs: number, reader: Reader, mostTicks: number): TimeTick[] {
  const spanMs = toMs - fromMs;
  const stepMs = stepsMs.find((step) => spanMs / step <= mostTicks) ?? (stepsMs.at(-1) as number);
  const ticks: TimeTick[] = [];
  const firstWallMs = Math.ceil(wallOf(fromMs, reader.timeZone) / stepMs) * stepMs;
  for (let wallMs = firstWallMs; ; wallMs += stepMs) {
    const atMs = instantOf(wallMs, reader.timeZone);
    if (atMs > toMs) return ticks;
    if (atMs < fromMs || atMs <= (ticks.at(-1)?.atMs ?? -Infinity)) continue;
    const isDay = wallMs % msPerDay === 0;
    ticks.push({ atMs, isDay, label: isDay ? shortDay(atMs, reader) : clockTime(atMs, reader) });
  }
}

/** More midnights than this would be a comb. */
const mostMidnights = 40;

/** Between marks that are days apart each midnight has a mark without a name. */
export function withMidnights(ticks: readonly TimeTick[], fromMs: number, toMs: number, reader: Reader): TimeTick[] {
  if (!ticks.every((tick) => tick.isDay) || (toMs - fromMs) / msPerDay > mostMidnights) return [...ticks];
  const named = new Set(ticks.map(({ atMs }) => atMs));
  const midnights = timeTicks(fromMs, toMs, reader, mostMidnights * 24).filter(
    (tick) => tick.isDay && !named.has(tick.atMs),
  );
  return [...ticks, ...midnights.map((tick) => ({ ...tick, label: '' }))].sort((one, other) => one.atMs - other.atMs);
}
