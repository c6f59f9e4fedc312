/**
 * Tells a hot pile from a one-wire chip that has just got power.
 *
 * Such a chip answers exactly 85 °C until its first conversion, and the answer passes its checksum (maker's data sheet:
 * power-on register 0x0550). No pile steps there from elsewhere within a sample, so 85 counts only beside a value near
 * it.
 */
import type { Reading } from '../../shared/reading.ts';
import { msPerHour } from '../../shared/units.ts';

export const powerOnC = 85;
/** How near, in temperature and in time, the probe's previous value must lie. */
export const neighbourC = 5;
const neighbourMs = msPerHour;

/** Far more probes than a farm has; beyond it all are forgotten, and the next 85 of each is refused. */
const rememberedProbes = 50_000;

export interface PowerOnGuard {
  /** Whether this temperature may be kept; remembers it when so. */
  accepts(reading: Reading): boolean;
  /** What a probe last measured before this process started. */
  remember(site: string, probe: string, tempC: number, atMs: number): void;
}

/** As last come in, and as newest by its own time: the two differ while a probe catches up. */
interface Remembered {
  lastC: number;
  lastAtMs: number;
  newestC: number;
  newestAtMs: number;
}

export function createPowerOnGuard(): PowerOnGuard {
  const sites = new Map<string, Map<string, Remembered>>();
  let count = 0;

  function remember(site: string, probe: string, tempC: number, atMs: number): void {
    const known = sites.get(site)?.get(probe);
    if (known === undefined) {
      add(site, probe, { lastC: tempC, lastAtMs: atMs, newestC: tempC, newestAtMs: atMs });
      return;
    }
    known.lastC = tempC;
    known.lastAtMs = atMs;
    if (atMs < known.newestAtMs) return;
    known.newestC = tempC;
    known.newestAtMs = atMs;
  }

  function add(site: string, probe: string, remembered: Remembered): void {
    if (count >= rememberedProbes) {
      sites.clear();
      count = 0;
    }
    const probes = sites.get(site) ?? new Map<string, Remembered>();
    sites.set(site, probes.set(probe, remembered));
    count += 1;
  }

  function supported({ site, probe, atMs }: Reading): boolean {
    const known = sites.get(site)?.get(probe);
    if (known === undefined) return false;
    return near(known.lastC, known.lastAtMs, atMs) || near(known.newestC, known.newestAtMs, atMs);
  }

  return {
    accepts(reading) {
      if (reading.value === powerOnC && !supported(reading)) return false;
      remember(reading.site, reading.probe, reading.value, reading.atMs);
      return true;
    },
    remember,
  };
}

function near(neighbourTempC: number, neighbourAtMs: number, atMs: number): boolean {
  return Math.abs(neighbourTempC - powerOnC) <= neighbourC && Math.abs(atMs - neighbourAtMs) <= neighbourMs;
}
