/** The air beside a pile, hour by hour, for the expected curve. */
import type { ReadingsStore } from '../../shared/store/readings-store.ts';
import { msPerHour } from '../../shared/units.ts';
import type { PileSource } from './pile/pile-sources.ts';

/** @returns Hourly means of the air temperature [°C], oldest first; hours without a reading are left out. */
export async function airByHour(
  readings: ReadingsStore,
  sources: readonly PileSource[],
  fromMs: number,
  toMs: number,
): Promise<{ atMs: number; tempC: number }[]> {
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
