/** How fast each connection may send, by who it was let in as. */
import type { Principal } from '../auth/auth-policy.ts';
import { createPace, type Pace } from './pace.ts';

const secondsAtOnce = 10;
/** Gateways that share the key of a site and all speak as fast as one may. */
const fastConnectionsOfSite = 4;

/**
 * @param packetsPerSecond Of one connection, and of a key of one probe over all its connections.
 * @returns The paces that one more connection of a principal has to keep, some of them shared with its others.
 */
export function createPrincipalPaces(packetsPerSecond: number): (principal: Principal) => readonly Pace[] {
  const ofKeys = new WeakMap<Principal, Pace>();

  function paceOfKey(principal: Principal): Pace {
    const known = ofKeys.get(principal);
    if (known !== undefined) return known;
    const pace = newPace(packetsPerSecond * (principal.isOneProbe ? 1 : fastConnectionsOfSite));
    ofKeys.set(principal, pace);
    return pace;
  }

  return (principal) => {
    if (!principal.isPaced) return [];
    if (principal.keyId === null) return [newPace(packetsPerSecond)];
    const ofKey = paceOfKey(principal);
    return principal.isOneProbe ? [ofKey] : [newPace(packetsPerSecond), ofKey];
  };
}

const newPace = (perSecond: number) => createPace(perSecond, secondsAtOnce * perSecond, performance.now());
