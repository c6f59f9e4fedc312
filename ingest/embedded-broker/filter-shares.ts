/**
 * How many topic filters one key may hear at the embedded broker at once, over all its connections; one that comes
 * without a key, on its own connection.
 */
import type { Principal } from '../auth/auth-policy.ts';

export interface FilterShares {
  /** Counts a filter for its listener. false when there are too many, of the listener or in all. */
  take(listener: Listener, filter: string): boolean;
  give(listener: Listener, filters: readonly string[]): void;
  giveAll(listener: Listener): void;
}

/** One connection that hears topics. */
interface Listener {
  readonly client: object;
  readonly principal: Principal | undefined;
}

const mostOfProbe = 32;
const mostOfSite = 256;
/** A key that hears everything, or a connection without a key. */
const mostOfHub = 2_048;
const mostInAll = 16_384;

export function createFilterShares(): FilterShares {
  const ofClients = new Map<object, Set<string>>();
  const ofKeys = new Map<string, number>();
  let inAll = 0;

  function count(keyId: string | null, change: number): void {
    inAll += change;
    if (keyId === null) return;
    const now = (ofKeys.get(keyId) ?? 0) + change;
    if (now > 0) ofKeys.set(keyId, now);
    else ofKeys.delete(keyId);
  }

  return {
    take({ client, principal }, filter) {
      const own = ofClients.get(client) ?? new Set<string>();
      if (own.has(filter)) return true; // asked again, it takes the place of the first [MQTT-3.8.4-3]
      const keyId = principal?.keyId ?? null;
      const held = keyId === null ? own.size : (ofKeys.get(keyId) ?? 0);
      if (held >= mostFor(principal) || inAll >= mostInAll) return false;
      own.add(filter);
      ofClients.set(client, own);
      count(keyId, 1);
      return true;
    },
    give({ client, principal }, given) {
      const own = ofClients.get(client);
      for (const filter of given) if (own?.delete(filter)) count(principal?.keyId ?? null, -1);
    },
    giveAll({ client, principal }) {
      const own = ofClients.get(client);
      if (own === undefined) return;
      ofClients.delete(client);
      count(principal?.keyId ?? null, -own.size);
    },
  };
}

function mostFor(principal: Principal | undefined): number {
  if (principal === undefined || principal.keyId === null || principal.hears === 'everything') return mostOfHub;
  return principal.isOneProbe ? mostOfProbe : mostOfSite;
}
