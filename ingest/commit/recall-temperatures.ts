import type { ReadingsStore, SeriesLast } from '../../shared/store/readings-store.ts';
import type { PowerOnGuard } from '../decode/power-on-guard.ts';
import type { IngestLog } from './inbound-source.ts';

/** So that a probe at a true 85 °C is believed at once after a restart. */
export function recallTemperatures(lasts: readonly SeriesLast[], powerOn: PowerOnGuard): void {
  for (const { site, probe, quantity, value, atMs } of lasts) {
    if (quantity === 'temperature') powerOn.remember(site, probe, value, atMs);
  }
}

/** @param sites all where there are none. */
export async function recallTemperaturesOf(
  sites: readonly string[] | undefined,
  store: Pick<ReadingsStore, 'lasts'>,
  powerOn: PowerOnGuard,
  log: IngestLog,
): Promise<void> {
  try {
    recallTemperatures(await store.lasts(sites), powerOn);
  } catch (error) {
    log.warn(
      { err: error },
      'could not recall the last temperatures; an isolated 85 °C is refused until the next reading',
    );
  }
}
