/** Who is let in at the embedded broker: by the policy, and while there is room. */
import type { Client } from 'aedes';
import type { Admission } from '../auth/auth-policy.ts';
import type { RefusedReason } from '../auth/connection-attempts.ts';
import { addressOf } from './arrivals.ts';
import { clientIdFor, shownClientId } from './client-ids.ts';
import { type Hook, type HookParts, socketOf } from './hook-parts.ts';
import type { KeyShares } from './key-shares.ts';
import { neverWaitFor } from './never-wait.ts';

/** Of a client id as the broker knows it, with its key; a server must take 23 bytes and may take more [MQTT-3.1.3-5]. */
const longestClientId = 512;
/** The longest that can be asked for (section 3.1.2.10). */
const longestKeepAliveS = 65_535;

/** MQTT 3.1.1 table 3.1: 2 = identifier rejected, 3 = server unavailable, 4 = bad user name or password, 5 = not authorized. */
const returnCodes: Partial<Record<RefusedReason, number>> = {
  'too-long-client-id': 2, // [MQTT-3.1.3-9]
  'too-many-of-key': 3,
  'no-key': 5,
};

/** Sessions end with their connection: the packet is changed before the broker reads it. */
export const preConnect: Hook<'preConnect'> = (_client, packet, done) => {
  packet.clean = true;
  packet.clientId = clientIdFor(packet.username, packet.clientId);
  // One that is never silent for too long would hold its place for ever; a server may part from the inactive
  // whatever they ask for (section 3.1.2.10, non-normative), and after a day they come back.
  if (packet.keepalive === 0) packet.keepalive = longestKeepAliveS;
  done(null, true);
};

export function authenticateWith(parts: HookParts): Hook<'authenticate'> {
  const { authPolicy, shares, filters, principals } = parts;
  return (client, username, password, done) => {
    const socket = socketOf(client);
    if (socket.destroyed) return; // and aedes has parted from it
    const address = addressOf(socket);
    const admission = roomFor(client, shares, authPolicy.admit({ address, username, password }));
    if ('refused' in admission) {
      const { refused: reason, keyId } = admission;
      authPolicy.connectionAttempts.count({ address, clientId: shownClientId(client.id), keyId, reason });
      const error = Object.assign(new Error(`turned away: ${reason}`), { returnCode: returnCodes[reason] ?? 4 });
      setTimeout(() => done(error, false), authPolicy.connectionAttempts.waitMs(address)).unref();
      return;
    }
    principals.set(client, admission);
    shares.connected(admission, client.id);
    socket.once('close', () => {
      shares.parted(admission, client.id);
      filters.giveAll({ client, principal: admission });
    });
    neverWaitFor(client);
    parts.letIn(socket, admission);
    done(null, true);
  };
}

/** The policy's answer, unless there is no room for whom it lets in. */
function roomFor(client: Client, shares: KeyShares, admission: Admission): Admission {
  const { keyId } = admission;
  if (client.id.length > longestClientId) return { refused: 'too-long-client-id', keyId };
  if ('refused' in admission || shares.mayConnect(admission, client.id)) return admission;
  return { refused: 'too-many-of-key', keyId };
}
