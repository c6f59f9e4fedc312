import type { ReadingsStore } from '../../shared/store/readings-store.ts';
import type { PowerOnGuard } from '../decode/power-on-guard.ts';
import type { IngestLog } from './inbound-source.ts';

/** So that a probe at a true 85 °C is believed at once after a restart. */
export async function recallTemperatures(
  store: Pick<ReadingsStore, 'lasts'>,
  powerOn: PowerOnGuard,
  log: IngestLog,
): Promise<void> {
  try {
    for (const { site, probe, quantity, value, atMs } of await store.lasts()) {
      if (quantity === 'temperature') powerOn.remember(site, probe, value, atMs);
    }
  } catch (error) {
    log.warn(
      { err: error },
      'could not recall the last temperatures; an isolated 85 °C is refused until the next reading',
    );
  }
}
