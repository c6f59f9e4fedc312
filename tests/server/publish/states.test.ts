import { connectAsync, type MqttClient } from 'mqtt';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { type PileEvent, pileEventSchema, pileStateSchema } from '../../../shared/contracts/published.ts';
import { hasMosquitto, startMosquitto } from '../../helpers/mosquitto.ts';
import { until } from '../../helpers/until.ts';
import { type NotifyFarm, openNotifyFarm } from '../notify/farm.ts';

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

const topic = 'piles-state/saltmere-yard/shed';

for (const [name, isThere, start] of brokers) {
  describe.skipIf(!isThere)(`what is published at ${name}`, () => {
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

    const choose = async (states: boolean) => {
      const answer = await farm.one.app.inject({ method: 'PUT', url: '/api/publishing', payload: { states } });
      expect(answer.statusCode).toBe(200);
    };

    /** A program that was just started: of states only what the broker keeps can show them. */
    async function listen() {
      const client = await connectAsync(farm.one.installation.ingest.url, { clientId: `program-${clients.length}` });
      clients.push(client);
      const states: string[] = [];
      const events: PileEvent[] = [];
      client.on('message', (of, payload) => {
        if (of.startsWith('piles-state/')) states.push(payload.toString());
        else events.push(pileEventSchema.parse(JSON.parse(payload.toString())));
      });
      await client.subscribeAsync(['piles-state/#', 'piles-event/#'], { qos: 1 });
      const newest = () => pileStateSchema.parse(JSON.parse(states.at(-1) ?? 'null'));
      return { client, states, events, newest };
    }

    test('is nothing until an owner switches it on, and is taken back when they switch it off', async () => {
      const early = await listen();
      await farm.measure(24);
      await choose(true);
      await until('the state', () => early.states.at(-1));
      expect(early.states.length).toBe(1);
      expect(early.newest()).toMatchObject({
        version: 1,
        id: 'shed',
        site: 'saltmere-yard',
        alarm: 'calm',
        positions: { core: { probe: 'p1', temperatureC: 24 } },
        lastHeardAt: new Date(farm.nowMs).toISOString(),
      });
      const { messages, condition } = early.newest();
      expect([messages?.condition.code, condition]).toEqual([expect.stringMatching(/^say\./), expect.any(String)]);
      await choose(false);
      await until('it is taken back', () => (early.states.at(-1) === '' ? true : undefined));
      const late = await listen();
      await choose(true);
      await until('it is there again', () => late.states.at(-1));
      expect(late.states).toHaveLength(1);
    });

    test('follows an alarm, an entry and the phase as events, and the state names the alarm', async () => {
      await choose(true);
      const { events, newest, states } = await listen();
      await until('the first state', () => states.at(-1));
      const { id } = await farm.overheat();
      const names = () => events.map(({ event }) => event);
      const raised = await until('it is raised', () => events.find((one) => 'alarm' in one && one.alarm.id === id));
      expect(raised).toMatchObject({
        event: 'alarm-raised',
        site: 'saltmere-yard',
        pile: 'shed',
        alarm: { kind: 'overheating', position: null },
      });
      await until('the state says so', () => (newest().alarms.some((one) => one.id === id) ? true : undefined));
      expect(newest().alarm).not.toBe('calm');
      await until('the phase', () => names().find((event) => event === 'phase-changed'));
      await farm.post(`/api/alarms/${id}/acknowledge`, { by: 'Ada' });
      await until('it is acknowledged', () => names().find((event) => event === 'alarm-acknowledged'));
      await farm.post('/api/piles/shed/entries', { by: 'Ada', note: 'steams', what: { kind: 'turned' } });
      const written = await until('the entry', () => events.find(({ event }) => event === 'entry-written'));
      expect(written).toMatchObject({ entry: { version: 1, kind: 'turned', withdrawn: false } });
      await farm.post('/api/piles/shed/finish', { outcome: 'spread on the beds' });
      await until('it is cleared', () => names().find((event) => event === 'alarm-cleared'));
      expect(JSON.stringify([events, states])).not.toContain('Ada');
    });

    test('goes with its pile', async () => {
      await choose(true);
      const { states } = await listen();
      await until('the state', () => states.at(-1));
      const answer = await farm.one.app.inject({ method: 'DELETE', url: '/api/piles/shed' });
      expect(answer.statusCode).toBe(204);
      await until('it is taken away', () => (states.at(-1) === '' ? true : undefined));
    });

    test('is the word of the server alone', async () => {
      await choose(true);
      const { states, client } = await listen();
      await until('the state', () => states.at(-1));
      if (name !== 'the embedded broker') return; // there its own access rules hold
      await client.publishAsync(topic, '{"alarm":"danger"}', { qos: 1, retain: true });
      const late = await listen();
      await until('what is kept', () => late.states.at(-1));
      expect(late.newest().alarm).toBe('calm');
    });
  });
}
