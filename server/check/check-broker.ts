/** Whether readings can come in: through the broker inside, or through one that somebody else runs. */
import { randomBytes } from 'node:crypto';
import { type ErrorWithReasonCode, type MqttClient, connect as mqttConnect } from 'mqtt';
import { checkedUrl, connectOptions } from '../../ingest/client/connect-options.ts';
import type { Config } from '../../shared/config.ts';
import { mustBeFree } from '../../shared/listen-problem.ts';
import { ownAddress } from './ask-own-server.ts';
import { type Finding, mendFor, messageOf, untrusted } from './finding.ts';
import { ownHealth } from './own-health.ts';

const part = 'broker';
const patienceMs = 5_000;

export async function checkBroker(config: Config): Promise<Finding> {
  return config.MQTT_URL === undefined ? checkEmbedded(config) : checkOutside(config, config.MQTT_URL);
}

async function checkEmbedded(config: Config): Promise<Finding> {
  const { MQTT_PORT: port, MQTT_HOST: host } = config;
  const where = `mqtt://${host.includes(':') ? `[${host}]` : host}:${port}`;
  const health = await ownHealth(config);
  if (health !== undefined) {
    const { state, detail } = health.parts.broker;
    return { part, state: state === 'ok' ? 'ok' : 'wrong', says: `the server at work says of it: ${detail}` };
  }
  try {
    const names = { port: 'BRANHEARTH_MQTT_PORT', host: 'BRANHEARTH_MQTT_HOST' };
    await mustBeFree({ port, host, use: 'the embedded broker', names });
    return { part, state: 'ok', says: `the server is not running; the port of its broker is free (${where})` };
  } catch (error) {
    return {
      part,
      state: 'wrong',
      says: messageOf(error),
      mend: `no server of this farm answers at ${ownAddress(config)}, so another program has the port; if it is a broker that you want to use, name it in BRANHEARTH_MQTT_URL`,
    };
  }
}

/** Comes in as the server does, under a name of its own, so that a server at work is not thrown out. */
async function checkOutside(config: Config, url: string): Promise<Finding> {
  const { MQTT_CLIENT_ID, MQTT_USERNAME: username, MQTT_PASSWORD: password, MQTT_ROOT: root } = config;
  const id = randomBytes(6).toString('hex');
  let client: MqttClient | undefined;
  try {
    const shown = checkedUrl(url);
    const account = { clientId: `${MQTT_CLIENT_ID}-check-${id}`, username, password };
    client = mqttConnect(url, {
      ...connectOptions({ url, ...account }, 'onlooking'),
      reconnectPeriod: 0,
      reconnectOnConnackError: false,
      connectTimeout: patienceMs,
    });
    await within(connected(client), 'it takes the connection and says nothing as a broker would');
    const refused = await hearsNot(client, [`${root}/+/+/+`, `${root}-check/${id}`]);
    if (refused !== undefined) return mayNot(shown, `it does not let us hear ${refused}`);
    const comesBack = await publishesAndHears(client, `${root}-check/${id}`, id);
    if (!comesBack) return mayNot(shown, `what we publish to ${root}-check/… does not come back`);
    return { part, state: 'ok', says: `${shown} lets us in, gives us ${root}/+/+/+, and brings back what we publish` };
  } catch (error) {
    return { part, state: 'wrong', says: `the broker at ${urlShown(url)}: ${messageOf(error)}`, mend: mendOf(error) };
  } finally {
    client?.end(true);
  }
}

function mayNot(shown: string, what: string): Finding {
  return {
    part,
    state: 'wrong',
    says: `${shown} lets us in, but ${what}`,
    mend: 'let the user of BRANHEARTH_MQTT_USERNAME read and write every topic: the access file of the page “Keys for probes” says so (topic readwrite #)',
  };
}

function urlShown(url: string): string {
  try {
    return checkedUrl(url);
  } catch {
    return 'BRANHEARTH_MQTT_URL';
  }
}

function connected(client: MqttClient): Promise<void> {
  return new Promise((resolve, reject) => {
    client.once('connect', () => resolve());
    client.on('error', reject);
    client.once('close', () => reject(new Error('the connection was closed before the broker answered')));
  });
}

/** @returns the first filter that is refused. */
async function hearsNot(client: MqttClient, filters: readonly string[]): Promise<string | undefined> {
  for (const filter of filters) {
    try {
      const granted = await within(client.subscribeAsync(filter, { qos: 1 }), `no answer when asked for ${filter}`);
      if (granted.some(({ qos }) => qos >= 128)) return filter;
    } catch (error) {
      if ((error as Partial<ErrorWithReasonCode>).code === undefined && !/unspecified|refused/i.test(messageOf(error)))
        throw error;
      return filter;
    }
  }
  return undefined;
}

async function publishesAndHears(client: MqttClient, topic: string, text: string): Promise<boolean> {
  const heard = new Promise<boolean>((resolve) => {
    client.on('message', (from, payload) => {
      if (from === topic && payload.toString('utf8') === text) resolve(true);
    });
  });
  const refused = client.publishAsync(topic, text, { qos: 1 }).then(
    () => new Promise<boolean>(() => {}), // taken: now it is to be heard
    () => false,
  );
  return Promise.race([heard, refused, new Promise<boolean>((resolve) => setTimeout(resolve, patienceMs, false))]);
}

async function within<Result>(work: Promise<Result>, otherwise: string): Promise<Result> {
  let timer: NodeJS.Timeout | undefined;
  const late = new Promise<never>((_resolve, reject) => {
    timer = setTimeout(() => reject(new Error(`${otherwise} (${patienceMs / 1000} s)`)), patienceMs);
  });
  return Promise.race([work, late]).finally(() => clearTimeout(timer));
}

/** Reason codes of MQTT 5 (section 3.2.2.2), and of 3.1.1 for brokers that know no other. */
function mendOf(error: unknown): string | undefined {
  const { code } = error as { code?: unknown };
  if (code === 132 || code === 1) return 'it must speak MQTT 5, as Mosquitto does from 1.6 on';
  if (typeof code === 'number' && [4, 5, 134, 135].includes(code)) {
    return 'set BRANHEARTH_MQTT_USERNAME and BRANHEARTH_MQTT_PASSWORD as the broker has them (for Mosquitto made by mosquitto_passwd)';
  }
  return mendFor(error, [
    [
      /ECONNREFUSED/,
      'start the broker, or put its address into BRANHEARTH_MQTT_URL; Mosquitto answers its own machine only until a `listener` line says more',
    ],
    [/ENOTFOUND|EAI_AGAIN/, 'there is no machine of that name: put the right one into BRANHEARTH_MQTT_URL'],
    untrusted,
    [
      /says nothing|connack timeout|closed before|ECONNRESET|wrong version number|packet length/i,
      'put the address of an MQTT listener into BRANHEARTH_MQTT_URL: mqtt:// without TLS (1883 as a rule), mqtts:// with it (8883)',
    ],
  ]);
}
