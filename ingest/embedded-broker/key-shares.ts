/**
 * How many connections one key may have at the embedded broker at once: more for a key that reaches further. Who comes
 * without a key is bounded by its address (arrivals).
 */
import type { Principal } from '../auth/auth-policy.ts';

export interface KeyShares {
  /** false when the key has as many client ids connected as it may; one that is connected may come again in its stead. */
  mayConnect(principal: Principal, clientId: string): boolean;
  connected(principal: Principal, clientId: string): void;
  parted(principal: Principal, clientId: string): void;
}

/** A probe is one device: the rest is for connections that its network lost and the broker has not yet. */
const mostOfProbe = 32;
/** A fifth of all places, as from one address. */
const shareOfSite = 0.2;

export function createKeyShares(mostConnections: number): KeyShares {
  const connections = new Map<string, Map<string, number>>(); // by key, then by client id

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
  };
}
