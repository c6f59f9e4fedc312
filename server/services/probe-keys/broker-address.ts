/** By which name and port a probe reaches the broker. */

import { isLoopback } from '../../../shared/config.ts';
import type { BrokerAddress } from '../../../shared/contracts/keys.ts';

export function brokerAddress(
  broker: { readonly url: string; readonly tlsUrl: string | undefined },
  publicUrl: string | undefined,
  requestHost: string,
): BrokerAddress {
  const brokers = [broker.tlsUrl, broker.url].flatMap((url) =>
    url === undefined ? [] : [addressOf(url, publicUrl, requestHost)],
  );
  const [first] = brokers;
  if (first === undefined) throw new Error('The broker has no address to give');
  return brokers.find(({ onlyHere }) => !onlyHere) ?? first;
}

function addressOf(url: string, publicUrl: string | undefined, requestHost: string): BrokerAddress {
  const { protocol, hostname, port } = new URL(url);
  const listens = bare(hostname);
  const tls = protocol === 'mqtts:' || protocol === 'wss:';
  // One that listens everywhere is reached by the name the pages are reached by.
  const isEverywhere = listens === '0.0.0.0' || listens === '::';
  const host = isEverywhere ? bare(publicUrl === undefined ? requestHost : new URL(publicUrl).hostname) : listens;
  return { host, port: port === '' ? (tls ? 8883 : 1883) : Number(port), tls, onlyHere: isLoopback(listens) };
}

const bare = (host: string) => host.replace(/^\[|\]$/g, '');
