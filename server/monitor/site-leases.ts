import type { Lease } from '../../shared/store/journal.ts';

/**
 * The leases under which sites are watched here, and since when each is listened to. Where one process watches all, no
 * site has a lease of its own, and all are listened to since the start.
 */
export class SiteLeases {
  readonly #leases = new Map<string, Lease>();
  readonly #takenAtMs = new Map<string, number>();
  #listeningSinceMs: number;

  /** @param nowMs Server time at the start. */
  constructor(nowMs: number) {
    this.#listeningSinceMs = nowMs;
  }

  take(leases: readonly Lease[], nowMs: number): void {
    for (const lease of leases) {
      this.#leases.set(lease.site, lease);
      this.#takenAtMs.set(lease.site, nowMs);
    }
  }

  leave(site: string): void {
    this.#leases.delete(site);
  }

  of(site: string): Lease | undefined {
    return this.#leases.get(site);
  }

  /** How long a site's probes have been listened to without a break [ms of server time]. */
  listeningForMs(site: string, nowMs: number): number {
    return nowMs - (this.#takenAtMs.get(site) ?? this.#listeningSinceMs);
  }

  /** Listening counts from here on, as after a start. */
  listenAnew(nowMs: number): void {
    this.#listeningSinceMs = nowMs;
    for (const site of this.#takenAtMs.keys()) this.#takenAtMs.set(site, nowMs);
  }
}
