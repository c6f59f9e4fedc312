import type { OpenInstallation } from '../../server/app/installation.ts';
import type { Reading } from '../../shared/reading.ts';

/** Commits readings as ingest does: kept first, then heard by the piles of their probes. */
export async function commitReadings(
  { readings: store, probes }: Pick<OpenInstallation, 'readings' | 'probes'>,
  readings: readonly Reading[],
): Promise<void> {
  await store.append(readings);
  for (const reading of readings) probes.record(reading);
}
