/**
 * How many connections, and how many topic filters, one key may have at the embedded broker at once: more for a key that
 * reaches further. Who comes without a key is bounded by its address (arrivals) and, for filters, by the connection.
 */
import type { Principal } from '../auth/auth-policy.ts';

export interface KeyShares {
  /** false when the key has as many client ids connected as it may; one that is connected may come again in its stead. */
  mayConnect(principal: Principal, clientId: string): boolean;
  connected(principal: Principal, clientId: string): void;
  parted(principal: Principal, clientId: string): void;
  /** Counts a filter for its listener. false when there are too many, of the listener or in all. */
  takeFilter(listener: Listener, filter: string): boolean;
  giveFilters(listener: Listener, filters: readonly string[]): void;
  giveAllFilters(listener: Listener): void;
}

/** One connection that hears topics. */
interface Listener {
  readonly client: object;
  readonly principal: Principal | undefined;
}

/** A probe is one device: the rest is for connections that its network lost and the broker has not yet. */
const mostOfProbe = 32;
/** A fifth of all places, as from one address. */
const shareOfSite = 0.2;

const mostFiltersOfProbe = 32;
const mostFiltersOfSite = 256;
/** A key that hears everything, or a connection without a key. */
const mostFiltersOfHub = 2_048;
const mostFilters = 16_384;

export function createKeyShares(mostConnections: number): KeyShares {
  const connections = new Map<string, Map<string, number>>(); // by key, then by client id
  const filtersOf = new Map<object, Set<string>>(); // by client
  const filtersOfKey = new Map<string, number>();
  let filters = 0;

  function count(keyId: string | null, change: number): void {
    filters += change;
    if (keyId === null) return;
    const now = (filtersOfKey.get(keyId) ?? 0) + change;
    if (now > 0) filtersOfKey.set(keyId, now);
    else filtersOfKey.delete(keyId);
  }

  function mostFor(principal: Principal | undefined): number {
    if (principal === undefined || principal.keyId === null || principal.hears === 'everything')
      return mostFiltersOfHub;
    return principal.isOneProbe ? mostFiltersOfProbe : mostFiltersOfSite;
  }

  return {
    mayConnect({ keyId, isOneProbe }, clientId) {
      if (keyId === null) return true;
      const ids = connections.get(keyId);
      if (ids === undefined || ids.has(clientId)) return true;
      return ids.size < (isOneProbe ? mostOfProbe : Math.max(mostOfProbe, Math.floor(mostConnections * shareOfSite)));
    },
    connected({ keyId }, clientId) {
      if (keyId === null) return;
      const ids = connections.get(keyId) ?? new Map<string, number>();
      connections.set(keyId, ids);
      ids.set(clientId, (ids.get(clientId) ?? 0) + 1);
    },
    parted({ keyId }, clientId) {
      const ids = keyId === null ? undefined : connections.get(keyId);
      if (keyId === null || ids === undefined) return;
      const left = (ids.get(clientId) ?? 1) - 1;
      if (left > 0) ids.set(clientId, left);
      else ids.delete(clientId);
      if (ids.size === 0) connections.delete(keyId);
    },
    takeFilter({ client, principal }, filter) {
      const own = filtersOf.get(client) ?? new Set<string>();
      if (own.has(filter)) return true; // asked again, it takes the place of the first [MQTT-3.8.4-3]
      const keyId = principal?.keyId ?? null;
      const held = keyId === null ? own.size : (filtersOfKey.get(keyId) ?? 0);
      if (held >= mostFor(principal) || filters >= mostFilters) return false;
      own.add(filter);
      filtersOf.set(client, own);
      count(keyId, 1);
      return true;
    },
    giveFilters({ client, principal }, given) {
      const own = filtersOf.get(client);
      for (const filter of given) if (own?.delete(filter)) count(principal?.keyId ?? null, -1);
    },
    giveAllFilters({ client, principal }) {
      const own = filtersOf.get(client);
      if (own === undefined) return;
      filtersOf.delete(client);
      count(principal?.keyId ?? null, -own.size);
    },
  };
}
