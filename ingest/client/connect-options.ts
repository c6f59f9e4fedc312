/** The options that mqtt.js takes for a connection. */
import type { IClientOptions } from 'mqtt';
import { ConfigError } from '../../shared/errors.ts';
import { msPerDay } from '../../shared/units.ts';
import type { OutsideBrokerOptions } from './outside-options.ts';

/** How long the broker keeps what we missed. */
const sessionExpiryS = (7 * msPerDay) / 1000;
/** Between attempts to come back. */
export const againMs = 1_000;

/** A lasting session is kept by the broker while we are away, the others end with their connection. */
export function connectOptions(
  options: OutsideBrokerOptions,
  session: 'lasting' | 'passing' | 'onlooking',
): IClientOptions {
  const { clientId, username, password, receiveMaximum = 1_000 } = options;
  const lasting = {
    clientId,
    clean: false,
    properties: { sessionExpiryInterval: sessionExpiryS, receiveMaximum },
    resubscribe: false, // done on every connect, so that retained status arrives each time
  };
  const ways = {
    lasting,
    passing: { clientId: `${clientId}-listening`, clean: true },
    onlooking: { clientId, clean: true, resubscribe: false },
  };
  return {
    ...ways[session],
    protocolVersion: 5,
    keepalive: 30,
    reconnectPeriod: againMs,
    reconnectOnConnackError: true, // a broker that is starting, or a password being changed, refuses at first
    connectTimeout: 10_000,
    log: () => {}, // called several times per message
    ...(username === undefined ? {} : { username }),
    ...(password === undefined ? {} : { password }),
  };
}

/** The address as it may be shown. @throws {ConfigError} */
export function checkedUrl(url: string): string {
  const shown = withoutSecrets(url);
  if (/^(mqtts?|wss?):\/\/./.test(url)) return shown;
  throw new ConfigError(
    `BRANHEARTH_MQTT_URL must be an address such as mqtt://broker.example:1883; it was ${JSON.stringify(shown)}`,
  );
}

function withoutSecrets(url: string): string {
  if (!URL.canParse(url)) return url;
  const shownUrl = new URL(url);
  shownUrl.username = '';
  shownUrl.password = '';
  return shownUrl.href.replace(/\/$/, '');
}
