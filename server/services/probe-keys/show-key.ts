/** What a person needs to enter at a probe, shown once when its key is made. */
import type { BrokerAddress } from '../../../shared/contracts/keys.ts';
import type { KeyReach } from '../../../shared/probe-key.ts';

export interface ShownKey {
  readonly lines: readonly { name: string; value: string }[];
  readonly example: string;
  /** There is no standard for such an address; scheme, user, host and path are written as in any other (common practice). */
  readonly address: string;
}

export function shownKey(id: string, reach: KeyReach, secret: string, broker: BrokerAddress, root: string): ShownKey {
  const topic = topicOf(reach, root);
  const publishes = reach.site !== null;
  return {
    lines: [
      { name: 'Server', value: broker.host },
      { name: 'Port', value: String(broker.port) },
      { name: 'TLS', value: broker.tls ? 'yes' : 'no' },
      { name: 'User name', value: id },
      { name: 'Password', value: secret },
      { name: publishes ? 'Publish to' : 'Listen to', value: topic },
      ...(publishes ? [{ name: 'Last will', value: topic.replace(/reading$/, 'status') }] : []),
    ],
    example: exampleOf(id, secret, broker, topic, publishes),
    address: `${broker.tls ? 'mqtts' : 'mqtt'}://${id}:${secret}@${inAddress(broker.host)}:${broker.port}/${topic}`,
  };
}

function topicOf({ site, probe, foreign, hears }: KeyReach, root: string): string {
  if (site !== null) return `${root}/${site}/${probe ?? '<probe>'}/reading`;
  if (foreign[0] !== undefined) return foreign[0];
  return hears === 'warnings' ? `${root}/+/siren` : `${root}/#`;
}

function exampleOf(id: string, secret: string, broker: BrokerAddress, topic: string, publishes: boolean): string {
  // Of this program's own folder; --ca names a certificate of your own.
  const common = `${broker.tls ? '--protocol mqtts ' : ''}-h ${broker.host} -p ${broker.port} -u ${id} -P ${secret} -q 1`;
  if (!publishes) return `npx mqtt sub ${common} -t '${topic}' -v`;
  return `npx mqtt pub ${common} -t ${topic.replace('<probe>', 'probe-1')} -m '{"temperature": 24.5, "humidity": 98}'`;
}

const inAddress = (host: string) => (host.includes(':') ? `[${host}]` : host);
