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
  // The folder of certificates that the machine itself trusts; --cafile names one of your own.
  const tls = broker.tls ? ' --capath /etc/ssl/certs' : '';
  const common = `-h ${broker.host} -p ${broker.port}${tls} -u ${id} -P ${secret} -q 1`;
  if (!publishes) return `mosquitto_sub ${common} -t '${topic}' -v`;
  return `mosquitto_pub ${common} -t ${topic.replace('<probe>', 'probe-1')} -m '{"temperature": 24.5, "humidity": 98}'`;
}

const inAddress = (host: string) => (host.includes(':') ? `[${host}]` : host);
