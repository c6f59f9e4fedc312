/** The air beside a pile, hour by hour, for the expected curve. */
import type { AirReading } from '../../core/profiles/air-reading.ts';
import type { ReadingsStore } from '../../shared/store/readings-store.ts';
import { msPerHour } from '../../shared/units.ts';
import type { PileSource } from '../pile/pile-sources.ts';

/** A gap up to this long is bridged as the pile feels it, and left to no neighbour [ms]; our own choice. */
const bridgedMs = 6 * msPerHour;

/**
 * The air that a pile goes by, and in longer gaps of it what a neighbour measured that stands by.
 * @returns Hourly means [°C], oldest first; hours without a reading are left out.
 */
export async function airBesidePile(
  readings: ReadingsStore,
  sources: readonly PileSource[],
  standbys: readonly PileSource[],
  fromMs: number,
  toMs: number,
): Promise<AirReading[]> {
  let air = await airByHour(readings, sources, fromMs, toMs);
  for (const standby of standbys) {
    const known = air.map(({ atMs }) => atMs);
    if (!hasGap([fromMs, ...known, toMs])) break;
    const there = await airByHour(readings, [standby], fromMs, toMs);
    const inGaps = there.filter(({ atMs }) => !known.some((one) => Math.abs(one - atMs) <= bridgedMs));
    air = [...air, ...inGaps].sort((a, b) => a.atMs - b.atMs);
  }
  return air;
}

const hasGap = (timesMs: readonly number[]): boolean =>
  timesMs.some((atMs, index) => atMs - (timesMs[index - 1] ?? atMs) > bridgedMs);

async function airByHour(
  readings: ReadingsStore,
  sources: readonly PileSource[],
  fromMs: number,
  toMs: number,
): Promise<AirReading[]> {
  const series = sources
    .filter(({ position }) => position === 'air')
    .map(({ claim }) => ({
      site: claim.site,
      probe: claim.probe,
      quantity: 'temperature' as const,
      fromMs: claim.fromMs,
      toMs: claim.toMs,
    }));
  if (series.length === 0 || toMs <= fromMs) return [];
  const { columns, bucketMs } = await readings.buckets(
    series,
    fromMs,
    toMs,
    Math.ceil((toMs - fromMs) / msPerHour) + 1,
  );
  const air = columns.flatMap(({ startMs, mean }) =>
    Array.from(startMs, (atMs, i) => ({ atMs: atMs + bucketMs / 2, tempC: mean[i] ?? Number.NaN })),
  );
  return air.sort((a, b) => a.atMs - b.atMs);
}
