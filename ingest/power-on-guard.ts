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

export function createPowerOnGuard(): PowerOnGuard {
  const last = new Map<string, { tempC: number; atMs: number }>();

  function remember(key: string, tempC: number, atMs: number): void {
    const known = last.get(key);
    if (known !== undefined) {
      known.tempC = tempC;
      known.atMs = atMs;
      return;
    }
    if (last.size >= rememberedProbes) {
      for (const old of [...last.keys()].slice(0, rememberedProbes / 2)) last.delete(old);
    }
    last.set(key, { tempC, atMs });
  }

  return {
    accepts({ site, probe, value, atMs }) {
      const key = `${site}/${probe}`;
      if (value === powerOnC) {
        const before = last.get(key);
        if (before === undefined) return false;
        if (Math.abs(before.tempC - powerOnC) > neighbourC || Math.abs(atMs - before.atMs) > neighbourMs) return false;
      }
      remember(key, value, atMs);
      return true;
    },
    remember(site, probe, tempC, atMs) {
      remember(`${site}/${probe}`, tempC, atMs);
    },
  };
}
