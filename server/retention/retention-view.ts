/** How much the readings take up, and what each age would free. */
import type { Clock } from '../../shared/clock.ts';
import { type KeepingAnswer, offeredKeptDays } from '../../shared/contracts/retention.ts';
import { toInstant } from '../../shared/contracts/time.ts';
import type { ReadingsStore } from '../../shared/store/readings-store.ts';
import { msPerDay } from '../../shared/units.ts';
import type { Downsampling } from './downsampling.ts';

const paceDays = 7;
const daysOfYear = 365;

export interface KeepingParts {
  readonly readings: ReadingsStore;
  readonly clock: Clock;
  readonly downsampling: Downsampling;
}

export async function keepingView(
  { readings, clock, downsampling }: KeepingParts,
  askedDays: number | undefined,
): Promise<KeepingAnswer> {
  const nowMs = clock.nowMs();
  const keptDays = await downsampling.keptDays();
  const watermarkMs = await readings.watermark();
  const pace = await readings.weigh(nowMs - paceDays * msPerDay, nowMs);
  const inAYear = (bytes: number) => Math.round((bytes * daysOfYear) / paceDays);
  const ages = [...new Set([...offeredKeptDays, ...[askedDays, keptDays].flatMap((days) => days ?? [])])];
  const wouldFree: KeepingAnswer['wouldFree'] = [];
  for (const days of ages.sort((a, b) => a - b)) {
    const { rows, bytes } = await readings.weigh(0, Math.max(0, nowMs - days * msPerDay));
    wouldFree.push({ keptDays: days, rows, bytes });
  }
  return {
    keptDays,
    downsampledBefore: watermarkMs === 0 ? null : toInstant(watermarkMs),
    ...(await readings.size()),
    year: {
      rows: inAYear(pace.rows),
      bytes: inAYear(pace.bytes + (pace.rollupBytes ?? 0)),
      downsampledBytes: pace.rollupBytes === null ? null : inAYear(pace.rollupBytes),
    },
    wouldFree,
    heldBy: keptDays === null ? null : await downsampling.heldBy(keptDays),
    running: downsampling.running,
    last: await downsampling.last(),
    problem: downsampling.problem,
  };
}
