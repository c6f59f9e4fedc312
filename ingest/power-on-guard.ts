/**
 * ingest/power-on-guard.ts: tells a hot pile from a one-wire chip that has just got power.
 *
 * Such a chip answers exactly 85 °C until its first conversion, and the answer passes its checksum
 * (maker's data sheet: power-on register 0x0550). No pile steps there from elsewhere within a sample,
 * so 85 counts only beside a value near it.
 */
import type { Reading } from '../shared/reading.ts';
import { msPerHour } from '../shared/units.ts';

export const powerOnC = 85;
/** How near, in temperature and in time, the probe's previous value must lie. */
export const neighbourC = 5;
export const neighbourMs = msPerHour;

/** Far more probes than a farm has; beyond it the oldest half is forgotten, and an isolated 85 is then refused. */
const rememberedProbes = 50_000;

export interface PowerOnGuard {
  /** Whether this temperature may be kept; remembers it when so. */
  accepts(reading: Reading): boolean;
  /** What a probe last measured before this process started. */
  remember(site: string, probe: string, tempC: number, atMs: number): void;
}

interface Remembered {
  /** As last come in, and as newest by its own time: the two differ while a probe catches up. */
  last: Pick<Reading, 'value' | 'atMs'>;
  newest: Pick<Reading, 'value' | 'atMs'>;
}

export function createPowerOnGuard(): PowerOnGuard {
  const probes = new Map<string, Remembered>();

  function remember(key: string, reading: Pick<Reading, 'value' | 'atMs'>): void {
    const known = probes.get(key);
    if (known !== undefined) {
      known.last = reading;
      if (reading.atMs >= known.newest.atMs) known.newest = reading;
      return;
    }
    if (probes.size >= rememberedProbes) {
      for (const old of [...probes.keys()].slice(0, rememberedProbes / 2)) probes.delete(old);
    }
    probes.set(key, { last: reading, newest: reading });
  }

  return {
    accepts(reading) {
      const key = `${reading.site}/${reading.probe}`;
      if (reading.value === powerOnC) {
        const known = probes.get(key);
        if (known === undefined || !(supports(known.last, reading) || supports(known.newest, reading))) return false;
      }
      remember(key, reading);
      return true;
    },
    remember(site, probe, tempC, atMs) {
      remember(`${site}/${probe}`, { value: tempC, atMs });
    },
  };
}

function supports(neighbour: Pick<Reading, 'value' | 'atMs'>, reading: Reading): boolean {
  return Math.abs(neighbour.value - powerOnC) <= neighbourC && Math.abs(reading.atMs - neighbour.atMs) <= neighbourMs;
}
