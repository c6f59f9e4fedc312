/**
 * server/probes/probe-book.ts: every probe that ever spoke, with what it last said and whom it serves.
 *
 * Takes:  committed readings, status messages, claims and calibrations.
 * Gives:  the list of probes, and the calibration applied before a reading is kept.
 * Never:  touches a store while readings arrive: it is filled once and then follows.
 */
import type { Probe } from '../../shared/api/probes.ts';
import { toInstant } from '../../shared/api/time.ts';
import type { Quantity } from '../../shared/quantity.ts';
import type { Reading } from '../../shared/reading.ts';
import type { ClaimRecord, Journal } from '../../shared/store/journal.ts';
import type { ReadingsStore } from '../../shared/store/readings-store.ts';

interface Last {
  value: number;
  atMs: number;
}

/** One probe; `listeners` are the piles that its readings serve (an air probe may serve every pile of its site). */
export interface KnownProbe {
  readonly site: string;
  readonly probe: string;
  readonly last: Partial<Record<Quantity, Last>>;
  lastAtMs: number | null;
  online: boolean | null;
  temperatureOffsetC: number;
  claim: ClaimRecord | null;
  listeners: readonly ((reading: Reading) => void)[];
}

export class ProbeBook {
  readonly #sites = new Map<string, Map<string, KnownProbe>>();

  /** Reads what the stores know. */
  static async open(readings: ReadingsStore, journal: Journal): Promise<ProbeBook> {
    const book = new ProbeBook();
    await book.recallReadings(readings);
    await book.recallRecords(journal);
    return book;
  }

  /** Follows what other processes took in meanwhile. */
  async recallReadings(readings: Pick<ReadingsStore, 'lasts'>): Promise<void> {
    for (const last of await readings.lasts()) this.#follow(this.of(last.site, last.probe), last.quantity, last);
  }

  /** Follows what was written down in the journal meanwhile. */
  async recallRecords(journal: Pick<Journal, 'probes' | 'claims'>): Promise<void> {
    for (const record of await journal.probes.list()) {
      const known = this.of(record.site, record.probe);
      known.online = record.online;
      known.temperatureOffsetC = record.temperatureOffsetC;
    }
    const claimed = new Set<KnownProbe>();
    for (const claim of await journal.claims.list()) {
      if (claim.toMs !== null) continue;
      const known = this.of(claim.site, claim.probe);
      known.claim = claim;
      claimed.add(known);
    }
    for (const known of this.all()) if (known.claim && !claimed.has(known)) known.claim = null;
  }

  /** The probe of that name, made when it was never heard of. */
  of(site: string, probe: string): KnownProbe {
    let probes = this.#sites.get(site);
    if (!probes) {
      probes = new Map();
      this.#sites.set(site, probes);
    }
    let known = probes.get(probe);
    if (!known) {
      known = {
        site,
        probe,
        last: {},
        lastAtMs: null,
        online: null,
        temperatureOffsetC: 0,
        claim: null,
        listeners: [],
      };
      probes.set(probe, known);
    }
    return known;
  }

  get(site: string, probe: string): KnownProbe | undefined {
    return this.#sites.get(site)?.get(probe);
  }

  *all(): Generator<KnownProbe> {
    for (const probes of this.#sites.values()) yield* probes.values();
  }

  /** Follows one committed reading. Hot: called for every reading. */
  record(reading: Reading): KnownProbe {
    const known = this.of(reading.site, reading.probe);
    this.#follow(known, reading.quantity, reading);
    for (const listen of known.listeners) listen(reading);
    return known;
  }

  calibrate(site: string, probe: string, quantity: Quantity, value: number): number {
    if (quantity !== 'temperature') return value;
    return value + (this.get(site, probe)?.temperatureOffsetC ?? 0);
  }

  #follow(known: KnownProbe, quantity: Quantity, reading: Last): void {
    const last = known.last[quantity];
    if (!last) known.last[quantity] = { value: reading.value, atMs: reading.atMs };
    else if (reading.atMs >= last.atMs) {
      last.value = reading.value;
      last.atMs = reading.atMs;
    }
    if (known.lastAtMs === null || reading.atMs > known.lastAtMs) known.lastAtMs = reading.atMs;
  }
}

/** As the API shows it. */
export function probeView(known: KnownProbe): Probe {
  const { last, claim } = known;
  return {
    site: known.site,
    probe: known.probe,
    claim: claim && { pileId: claim.pileId, position: claim.position, since: toInstant(claim.fromMs) },
    last: {
      ...(last.temperature && { temperatureC: last.temperature.value }),
      ...(last.humidity && { humidityPct: last.humidity.value }),
      ...(last.moisture && { moisturePct: last.moisture.value }),
      ...(last.co2 && { co2Ppm: last.co2.value }),
      ...(last.rssi && { rssiDbm: last.rssi.value }),
    },
    lastAt: known.lastAtMs === null ? null : toInstant(known.lastAtMs),
    batteryV: last.battery?.value ?? null,
    online: known.online,
    temperatureOffsetC: known.temperatureOffsetC,
  };
}
