/**
 * Every probe that ever spoke, with what it last said and whom it serves. It never touches a store while readings
 * arrive: it is filled once and then follows.
 */
import type { DeviceFacts } from '../../../ingest/devices/device-memory.ts';
import type { Probe, ProbeCounts } from '../../../shared/contracts/probes.ts';
import { toInstant } from '../../../shared/contracts/time.ts';
import { isHandProbe } from '../../../shared/hand-series.ts';
import { lastValues, type Quantity } from '../../../shared/quantity.ts';
import type { Reading } from '../../../shared/reading.ts';
import type { ClaimRecord, Journal } from '../../../shared/store/journal.ts';
import type { ReadingsStore } from '../../../shared/store/readings-store.ts';

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
  /** How it is known outside its name; of one recognised by itself. */
  device?: DeviceFacts;
  /** Set by `ProbeBook.setClaim` alone, which counts. */
  claim: ClaimRecord | null;
  listeners: readonly ((reading: Reading) => void)[];
}

/** Of all sites together so many times as many as of one. */
const unclaimedInAllTimes = 5;

export class ProbeBook {
  readonly #sites = new Map<string, Map<string, KnownProbe>>();
  readonly #mostUnclaimed: number;
  readonly #unclaimedOf = new Map<string, number>(); // by site
  #unclaimed = 0;
  #all = 0;

  /** @param mostUnclaimed Of one site, that are listened to. */
  constructor(mostUnclaimed: number) {
    this.#mostUnclaimed = mostUnclaimed;
  }

  /** Reads what the stores know. */
  static async open(
    readings: Pick<ReadingsStore, 'lasts'>,
    journal: Journal,
    mostUnclaimed: number,
  ): Promise<ProbeBook> {
    const book = new ProbeBook(mostUnclaimed);
    await book.recallReadings(readings);
    await book.recallRecords(journal);
    return book;
  }

  /** Follows what other processes took in meanwhile. */
  async recallReadings(readings: Pick<ReadingsStore, 'lasts'>): Promise<void> {
    for (const last of await readings.lasts())
      if (!isHandProbe(last.probe)) this.#follow(this.of(last.site, last.probe), last.quantity, last);
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
      this.setClaim(known, claim);
      claimed.add(known);
    }
    for (const known of this.all()) if (known.claim && !claimed.has(known)) this.setClaim(known, null);
  }

  setClaim(known: KnownProbe, claim: ClaimRecord | null): void {
    const was = known.claim === null;
    known.claim = claim;
    if (was !== (claim === null)) this.#countUnclaimed(known.site, claim === null ? 1 : -1);
  }

  get counts(): ProbeCounts {
    const isFull =
      this.#unclaimed >= unclaimedInAllTimes * this.#mostUnclaimed ||
      [...this.#unclaimedOf.values()].some((count) => count >= this.#mostUnclaimed);
    return { all: this.#all, unclaimed: this.#unclaimed, isFull };
  }

  /**
   * Whether this probe may be listened to: one that is known always; one never heard of only while few enough are in no
   * pile. It has its place from then on.
   */
  admits(site: string, probe: string): boolean {
    if (this.get(site, probe)) return true;
    if ((this.#unclaimedOf.get(site) ?? 0) >= this.#mostUnclaimed) return false;
    if (this.#unclaimed >= unclaimedInAllTimes * this.#mostUnclaimed) return false;
    this.of(site, probe);
    return true;
  }

  #countUnclaimed(site: string, change: 1 | -1): void {
    this.#unclaimed += change;
    const now = (this.#unclaimedOf.get(site) ?? 0) + change;
    if (now > 0) this.#unclaimedOf.set(site, now);
    else this.#unclaimedOf.delete(site);
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
      this.#all += 1;
      this.#countUnclaimed(site, 1);
    }
    return known;
  }

  get(site: string, probe: string): KnownProbe | undefined {
    return this.#sites.get(site)?.get(probe);
  }

  *all(): Generator<KnownProbe> {
    for (const probes of this.#sites.values()) yield* probes.values();
  }

  /** One that serves a pile stays. */
  forget(site: string, probe: string): void {
    const probes = this.#sites.get(site);
    const known = probes?.get(probe);
    if (!probes || !known || known.claim !== null) return;
    probes.delete(probe);
    if (probes.size === 0) this.#sites.delete(site);
    this.#all -= 1;
    this.#countUnclaimed(site, -1);
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
    last: lastValues(last),
    lastAt: known.lastAtMs === null ? null : toInstant(known.lastAtMs),
    batteryV: last.battery?.value ?? null,
    online: known.online,
    temperatureOffsetC: known.temperatureOffsetC,
    ...(known.device && { device: known.device }),
  };
}
