/** Home automation hubs, as they are documented, at both kinds of broker. No hub itself was seen. */
import { connectAsync, type MqttClient } from 'mqtt';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import type { HubChoice } from '../../../shared/contracts/published.ts';
import { hasMosquitto, startMosquitto } from '../../helpers/mosquitto.ts';
import { until } from '../../helpers/until.ts';
import { type NotifyFarm, openNotifyFarm } from '../notify/farm.ts';
import { documentedDiscovery } from './documented-discovery.ts';

const brokers = [
  ['the embedded broker', true, async () => ({ environment: {}, remove: async () => {} })],
  [
    'an outside broker',
    hasMosquitto,
    async () => {
      const mosquitto = await startMosquitto();
      return { environment: { MQTT_URL: mosquitto.url }, remove: () => mosquitto.remove() };
    },
  ],
] as const;

const config = 'homeassistant/device/branhearth-piles-shed/config';
const command = 'piles-command/saltmere-yard/shed/acknowledge';

for (const [name, isThere, start] of brokers) {
  describe.skipIf(!isThere)(`a hub at ${name}`, () => {
    let farm: NotifyFarm;
    let remove: () => Promise<void>;
    const clients: MqttClient[] = [];
    beforeEach(async () => {
      const broker = await start();
      remove = broker.remove;
      farm = await openNotifyFarm(broker.environment);
    });
    afterEach(async () => {
      for (const client of clients.splice(0)) await client.endAsync();
      await farm.close();
      await remove();
    });

    const choose = async (hub: HubChoice) => {
      const answer = await farm.one.app.inject({
        method: 'PUT',
        url: '/api/publishing',
        payload: { states: true, hub },
      });
      expect(answer.json()).toMatchObject({ states: true, hub });
    };

    async function openHub() {
      const client = await connectAsync(farm.one.installation.ingest.url, { clientId: `hub-${clients.length}` });
      clients.push(client);
      const configs: string[] = [];
      client.on('message', (topic, payload) => void (topic === config && configs.push(payload.toString())));
      await client.subscribeAsync('homeassistant/#', { qos: 1 });
      const device = () => documentedDiscovery.parse(JSON.parse(configs.at(-1) ?? 'null'));
      const press = (text: string, retain = false) => client.publishAsync(command, text, { qos: 1, retain });
      return { client, configs, device, press };
    }

    const at = (ms: number) => JSON.stringify({ at: new Date(ms).toISOString() });
    const refusals = () => farm.one.installation.ingest.counters().refused['press-of-no-use'];
    const stateOf = async (id: string) => (await farm.alarms()).find((one) => one.id === id)?.state;
    const audit = async () => (await farm.one.app.inject({ url: '/api/audit?limit=500' })).json().entries;

    test('hears of a pile once an owner wants it, again as it comes up, and no more when the pile is removed', async () => {
      const { client, configs, device } = await openHub();
      await farm.one.app.inject({ method: 'PUT', url: '/api/publishing', payload: { states: true } });
      await choose('looks-on');
      await until('the device', () => configs.find((text) => text !== '' && !text.includes('"top-temperature"')));
      expect(device()).toMatchObject({
        device: { identifiers: ['branhearth-piles-shed'], name: 'Shed' },
        state_topic: 'piles-state/saltmere-yard/shed',
        components: { 'core-temperature': { name: 'Core temperature', unit_of_measurement: '°C' }, warning: {} },
      });
      expect(device().components.acknowledge).toBeUndefined();
      const before = configs.length;
      await client.publishAsync('homeassistant/status', 'offline', { qos: 0 });
      await client.publishAsync('homeassistant/status', 'online', { qos: 0 });
      await until('it is said again', () => (configs.length > before ? true : undefined));
      const late = await openHub();
      await until('what the broker kept', () => late.configs.at(-1));
      expect((await farm.one.app.inject({ method: 'DELETE', url: '/api/piles/shed' })).statusCode).toBe(204);
      await until('it is taken away', () => (configs.at(-1) === '' ? true : undefined));
    });

    test('acknowledges by a press, and the audit trail and the warning name the hub', async () => {
      await choose('acknowledges');
      const { device, configs, press } = await openHub();
      await until('the button', () => configs.find((text) => text.includes(command)));
      expect(device().components.acknowledge).toMatchObject({ platform: 'button', command_topic: command });
      const { id } = await farm.overheat();
      await press(at(farm.nowMs));
      await until('it is acknowledged', async () => ((await stateOf(id)) === 'acknowledged' ? true : undefined));
      const step = (await farm.alarms())
        .find((one) => one.id === id)
        ?.steps.findLast(({ to }) => to === 'acknowledged');
      expect(step).toMatchObject({ by: 'Home automation hub' });
      const row = await until('the row', async () =>
        (await audit()).find((one: { subject: string }) => one.subject === id),
      );
      expect(row).toMatchObject({
        personName: 'Home automation hub',
        personId: null,
        via: 'hub',
        messages: { what: { code: 'audit.did.acknowledged-warning' } },
      });
      expect(refusals()).toBe(0);
    });

    test('does nothing by a press that is kept, old, ahead, without a time, of no pile, or not allowed', async () => {
      await choose('acknowledges');
      const { client, press } = await openHub();
      const { id } = await farm.overheat();
      const { nowMs } = farm;
      const bad: (() => Promise<unknown>)[] = [
        () => press(at(nowMs), true),
        () => press(at(nowMs - 120_001)),
        () => press(at(nowMs + 120_001)),
        () => press('PRESS'),
        () => press('{}'),
        () => client.publishAsync('piles-command/oak-terrace/shed/acknowledge', at(nowMs), { qos: 1 }),
        () => client.publishAsync('piles-command/saltmere-yard/barn/acknowledge', at(nowMs), { qos: 1 }),
      ];
      for (const [index, send] of bad.entries()) {
        await send();
        await until(`refusal ${index}`, () => (refusals() === index + 1 ? true : undefined));
      }
      // One before the warning began was for something else.
      const { since } = (await farm.alarms()).find((one) => one.id === id) as { since: string };
      await choose('looks-on');
      await press(at(nowMs));
      await until('it is refused', () => (refusals() === bad.length + 1 ? true : undefined));
      expect(await stateOf(id)).toBe('unacknowledged');
      expect((await audit()).filter(({ via }: { via: string }) => via === 'hub')).toEqual([]);
      await choose('acknowledges');
      farm.nowMs = Date.parse(since) + 60_000;
      await press(at(Date.parse(since) - 1));
      await press(at(farm.nowMs - 120_000));
      await press('counted after the two before it');
      await until('all came', () => (refusals() === bad.length + 2 ? true : undefined));
      expect(await stateOf(id)).toBe('unacknowledged');
      await press(at(farm.nowMs));
      await until('it is acknowledged', async () => ((await stateOf(id)) === 'acknowledged' ? true : undefined));
    });

    test('is no way for our own piles to come back as probes', async () => {
      await choose('acknowledges');
      const { client, configs } = await openHub();
      const said = await until('the device', () => configs.find((text) => text !== ''));
      // As a hub, a bridge or a second broker may hand it on.
      const other = 'homeassistant/device/copy/config';
      await client.publishAsync(other, said, { qos: 1, retain: true });
      await client.publishAsync(
        'homeassistant/sensor/copy/core/config',
        JSON.stringify({
          name: 'Core',
          unique_id: 'copy',
          device_class: 'temperature',
          unit_of_measurement: '°C',
          state_topic: 'piles-state/saltmere-yard/shed',
          value_template: '{{ value_json.positions.core.temperatureC }}',
          device: { identifiers: ['copy'], name: 'Copy' },
        }),
        { qos: 1 },
      );
      await farm.measure(31);
      const { ingest } = farm.one.installation;
      // A probe of its own that introduces itself after those, as the sign that all came.
      await client.publishAsync(
        'homeassistant/sensor/real/config',
        JSON.stringify({
          name: 'Temperature',
          unique_id: 'real',
          device_class: 'temperature',
          unit_of_measurement: '°C',
          state_topic: 'yard/board',
          device: { identifiers: ['real'], name: 'Board' },
        }),
        { qos: 1 },
      );
      const probes = async () =>
        (await farm.one.app.inject({ url: '/api/probes' })).json().probes.map(({ probe }: { probe: string }) => probe);
      await until('the real one', async () => {
        await client.publishAsync('yard/board', '40.5', { qos: 1 });
        return (await probes()).includes('real') ? true : undefined;
      });
      expect((await probes()).toSorted()).toEqual(['p1', 'real']);
      expect(ingest.foreignMessages().map(({ topic }) => topic)).not.toContain(config);
      expect(ingest.counters().refused['unknown-template']).toBe(0);
    });
  });
}
