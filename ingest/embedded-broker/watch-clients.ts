/** What the embedded broker says of its clients by itself. */

import type { EventEmitter } from 'node:events';
import type { Aedes, Client } from 'aedes';
import { ReadingError } from '../../shared/errors.ts';
import { message } from '../../shared/messages/message.ts';
import type { AuthPolicy, Principal } from '../auth/auth-policy.ts';
import type { IngestLog, Sink } from '../commit/inbound-source.ts';
import { addressOf } from './arrivals.ts';
import type { BrokerConnections } from './broker-connections.ts';
import { shownClientId } from './client-ids.ts';
import { type Principals, socketOf } from './hook-parts.ts';
import { warnSeldom } from './seldom.ts';

/** Tells the auth policy which keys are connected, and disconnects those who may not stay once it changed. */
export function watchClients(broker: Aedes, authPolicy: AuthPolicy, principals: Principals): void {
  const inside = new Map<Client, Principal>();
  broker.on('client', (client) => {
    const principal = principals.get(client);
    if (principal === undefined) return;
    inside.set(client, principal);
    if (principal.keyId !== null) authPolicy.sawKey(principal.keyId, addressOf(socketOf(client)), 1);
  });
  broker.on('clientDisconnect', (client) => {
    const principal = inside.get(client);
    if (inside.delete(client) && principal?.keyId != null)
      authPolicy.sawKey(principal.keyId, addressOf(socketOf(client)), -1);
  });
  authPolicy.onChange(() => {
    for (const [client, principal] of inside) {
      if (!authPolicy.mayStay(principal, addressOf(socketOf(client)))) client.conn.destroy();
    }
  });
}

/** Counts and logs for what the broker parted from a client. */
export function watchTrouble(
  broker: Aedes,
  connections: BrokerConnections,
  sink: Pick<Sink<never>, 'refuse'>,
  log: IngestLog,
): void {
  const warn = warnSeldom(log);
  broker.on('clientError', (client, error) => {
    // Topics that no publisher may use (wildcards, none, too deep) end the connection before `authorizePublish`.
    if (/PUBLISH|topic has/.test(error.message)) {
      const said = message('refusal.topic-mqtt', { problemText: error.message });
      sink.refuse(new ReadingError('topic-shape', said), `(not given) from ${shownClientId(client.id)}`, '');
    }
    if (/maxInflightInbound/.test(error.message)) connections.refused(socketOf(client), 'too-much-under-way', client);
    warn({ client: shownClientId(client.id), err: error }, 'parted from a publisher');
  });
  broker.on('connectionError', (client, error) => {
    if (/in time/.test(error.message)) connections.refused(socketOf(client), 'too-slow');
    warn({ err: error }, 'a publisher could not connect; the embedded broker speaks MQTT 3.1 and 3.1.1');
  });
  // aedes emits this for trouble of its own, and an EventEmitter without a listener would end the process.
  (broker as EventEmitter).on('error', (error: unknown) => log.error({ err: error }, 'trouble in the embedded broker'));
}
