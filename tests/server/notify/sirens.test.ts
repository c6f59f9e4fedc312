import { connectAsync, type MqttClient } from 'mqtt';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { hasMosquitto, startMosquitto } from '../../helpers/mosquitto.ts';
import { until } from '../../helpers/until.ts';
import { type NotifyFarm, openNotifyFarm } from './farm.ts';

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

for (const [name, isThere, start] of brokers) {
  describe.skipIf(!isThere)(`sirens and lamps at ${name}`, () => {
    let farm: NotifyFarm;
    let remove: () => Promise<void>;
    beforeEach(async () => {
      const broker = await start();
      remove = broker.remove;
      farm = await openNotifyFarm(broker.environment);
    });
    afterEach(async () => {
      await farm.close();
      await remove();
    });

    /** A siren that was just switched on: only what the broker keeps can tell it. */
    async function listen(): Promise<{ heard: Map<string, string>; client: MqttClient }> {
      const client = await connectAsync(farm.one.installation.ingest.url, { clientId: `siren-${Date.now()}` });
      const heard = new Map<string, string>();
      client.on('message', (topic, payload) => heard.set(topic, payload.toString()));
      await client.subscribeAsync(
        ['alarm', 'siren', 'lamp'].map((end) => `piles/saltmere-yard/${end}`),
        { qos: 1 },
      );
      return { heard, client };
    }
    const words = (heard: Map<string, string>) => [
      heard.get('piles/saltmere-yard/siren'),
      heard.get('piles/saltmere-yard/lamp'),
    ];
    const hears = (heard: Map<string, string>, siren: string, lamp: string) =>
      until(`${siren} and ${lamp}`, () => (words(heard).join() === [siren, lamp].join() ? true : undefined));

    test('say what stands, stop the siren when somebody acknowledges, and are calm when it is over', async () => {
      const { id } = await farm.overheat();
      const { heard, client } = await listen();
      await hears(heard, 'warning', 'warning');
      const notified = JSON.parse(heard.get('piles/saltmere-yard/alarm') ?? '{}') as {
        siren: string;
        alarms: unknown[];
      };
      expect(notified.alarms).toEqual(
        expect.arrayContaining([
          expect.objectContaining({ id, pile: 'shed', name: 'Shed', kind: 'overheating', acknowledged: false }),
        ]),
      );
      for (const alarm of await farm.alarms())
        if (alarm.state === 'unacknowledged') await farm.post(`/api/alarms/${alarm.id}/acknowledge`, {});
      await hears(heard, 'calm', 'warning');
      // A shelf keeps lamps quiet as well; it does not make the pile calm.
      const open = (await farm.alarms()).filter(({ stands }) => stands);
      for (const alarm of open) await farm.post(`/api/alarms/${alarm.id}/shelve`, { minutes: 60 });
      await hears(heard, 'calm', 'calm');
      for (const alarm of open) await farm.post(`/api/alarms/${alarm.id}/unshelve`, {});
      await hears(heard, 'warning', 'warning');
      await farm.post('/api/piles/shed/finish', { outcome: 'spread on the beds' });
      await hears(heard, 'calm', 'calm');
      await client.endAsync();
    });
  });
}
