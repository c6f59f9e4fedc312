/**
 * A phone's page, an empty data folder and a device that speaks in its own way: from nothing to a judged pile. Taps are
 * counted and printed.
 */
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { connectAsync } from 'mqtt';
import type { Browser, Locator } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { pilesAnswerSchema } from '../../shared/contracts/piles.ts';
import { hasChromium, launchBrowser } from '../helpers/browser.ts';
import { ruuviData } from '../helpers/ruuvi-data.ts';
import { spawnInstallation } from '../helpers/spawn-server.ts';
import { patienceMs, until } from '../helpers/until.ts';

let browser: Browser;
beforeAll(async () => {
  browser = await launchBrowser();
});
afterAll(() => browser?.close());

interface Device {
  readonly family: string;
  /** As the page calls the one that is warmed. */
  readonly name: string;
  /** What it publishes, the warmed sensor at one temperature and another at 18 °C. */
  says(warmC: number, atMs: number): readonly [topic: string, payload: string][];
}

const devices: readonly Device[] = [
  {
    family: 'ESPHome',
    name: 'compost-node, core',
    says: (warmC) => [
      ['compost-node/sensor/core_temperature/state', String(warmC)],
      ['compost-node/sensor/air_temperature/state', '18'],
    ],
  },
  {
    family: 'Tasmota',
    name: 'pile-board, 00000483c23a',
    says: (warmC) => [
      [
        'tele/pile-board/SENSOR',
        JSON.stringify({
          Time: '2026-11-29T20:00:00',
          'DS18B20-1': { Id: '00000483C23A', Temperature: warmC },
          'DS18B20-2': { Id: '0000048EC44C', Temperature: 18 },
          TempUnit: 'C',
        }),
      ],
    ],
  },
  {
    family: 'Zigbee2MQTT',
    name: 'compost/warm',
    says: (warmC, atMs) => [
      ['zigbee2mqtt/compost/warm', JSON.stringify({ temperature: warmC, soil_moisture: 44, last_seen: atMs })],
      ['zigbee2mqtt/shed', JSON.stringify({ temperature: 18, humidity: 60, last_seen: atMs })],
    ],
  },
  {
    family: 'The Things Stack',
    name: 'pile-7',
    says: (warmC, atMs) => [
      [
        'v3/farm@ttn/devices/pile-7/up',
        JSON.stringify({
          uplink_message: { decoded_payload: { temperature: warmC }, received_at: new Date(atMs).toISOString() },
        }),
      ],
    ],
  },
  {
    family: 'ChirpStack',
    name: 'Pile 3 core',
    says: (warmC, atMs) => [
      [
        'application/1/device/0102030405060708/event/up',
        JSON.stringify({
          time: new Date(atMs).toISOString(),
          deviceInfo: { deviceName: 'Pile 3 core' },
          object: { temperature: warmC, humidity: 90 },
        }),
      ],
    ],
  },
  {
    family: 'Shelly',
    name: 'shelly-bed',
    says: (warmC, atMs) => [
      [
        'shelly-bed/events/rpc',
        JSON.stringify({
          method: 'NotifyStatus',
          params: { ts: atMs / 1000, 'temperature:100': { id: 100, tC: warmC } },
        }),
      ],
    ],
  },
  {
    family: 'Theengs',
    name: 'TH Sensor',
    says: (warmC) => [
      [
        'home/TheengsGateway/BTtoMQTT/A4C138A2B3C4',
        JSON.stringify({ id: 'A4:C1:38:A2:B3:C4', model: 'TH Sensor', tempc: warmC }),
      ],
    ],
  },
  {
    family: 'OpenMQTTGateway',
    name: 'Acurite-Tower',
    says: (warmC) => [
      [
        'home/OpenMQTTGateway/RTL_433toMQTT/Acurite-Tower/A/9123',
        JSON.stringify({ model: 'Acurite-Tower', id: 9123, channel: 'A', temperature_C: warmC }),
      ],
    ],
  },
  {
    family: 'a Ruuvi gateway',
    name: 'Ruuvi 884F',
    says: (warmC, atMs) => [
      [
        'ruuvi/C8:25:2D:8E:9C:2C/CB:B8:33:4C:88:4F',
        JSON.stringify({ gw_mac: 'C8:25:2D:8E:9C:2C', rssi: -60, ts: atMs / 1000, data: ruuviData(warmC) }),
      ],
      [
        'ruuvi/C8:25:2D:8E:9C:2C/E1:00:00:4C:88:50',
        JSON.stringify({ gw_mac: 'C8:25:2D:8E:9C:2C', rssi: -70, ts: atMs / 1000, data: ruuviData(18) }),
      ],
    ],
  },
  {
    family: 'Homie',
    name: 'Pile 3',
    says: (warmC) => [
      [
        'homie/5/pile-3/$description',
        JSON.stringify({
          name: 'Pile 3',
          nodes: { core: { properties: { temperature: { datatype: 'float', unit: '°C' } } } },
        }),
      ],
      ['homie/5/pile-3/core/temperature', String(warmC)],
    ],
  },
  {
    family: 'a discovery message',
    name: 'Bed board',
    says: (warmC) => [
      [
        'homeassistant/device/bed-1/config',
        JSON.stringify({
          dev: { ids: ['bed-1'], name: 'Bed board' },
          stat_t: 'bed/state',
          cmps: {
            t: {
              p: 'sensor',
              name: 'Temperature',
              dev_cla: 'temperature',
              unit_of_meas: '°F',
              val_tpl: '{{ value_json.t }}',
            },
          },
        }),
      ],
      ['bed/state', JSON.stringify({ t: (warmC * 9) / 5 + 32 })],
    ],
  },
];

describe.skipIf(!hasChromium)('from nothing to a judged pile at 390 px', () => {
  test.each(devices)(
    '$family',
    async ({ family, name, says }) => {
      const dataDir = await mkdtemp(join(tmpdir(), 'branhearth-devices-'));
      const installation = await spawnInstallation(dataDir);
      const device = await connectAsync(installation.mqttUrl);
      const page = await browser.newPage({ viewport: { width: 390, height: 844 }, hasTouch: true });
      page.setDefaultTimeout(patienceMs);
      let taps = 0;
      let typed = 0;
      const tap = async (what: Locator) => {
        taps += 1;
        await what.tap();
      };
      const say = async (warmC: number) => {
        for (const [topic, payload] of says(warmC, Date.now())) await device.publishAsync(topic, payload);
      };
      try {
        await say(24);
        await page.goto(installation.pagesUrl);
        const offer = page.getByRole('radio', { name });
        await offer.waitFor();
        await say(27); // warmed in a hand
        await page.getByText('rising').waitFor();
        expect(await page.locator('label.rising').textContent()).toContain(name);

        await tap(page.getByLabel('Name of the pile'));
        await page.keyboard.type('First bed');
        typed += 1;
        await tap(offer);
        await tap(page.getByRole('button', { name: 'Lay the pile' }));
        await page.getByRole('heading', { level: 1, name: 'First bed' }).waitFor();
        await say(31);
        await page.getByRole('img', { name: /core 31/ }).waitFor();
        const judged = await until('a sentence of the core', async () => {
          const answer = await fetch(`${installation.pagesUrl}/api/piles`);
          const [pile] = pilesAnswerSchema.parse(await answer.json()).piles;
          return pile?.positions.core?.temperatureC === 31 && /31/.test(pile.condition) ? pile.condition : undefined;
        });
        console.log(`${family}: ${taps} taps, ${typed} name typed: “${judged}”`);
        expect(taps).toBeLessThanOrEqual(8);
        expect(await page.locator('body').textContent()).not.toMatch(/JSON Pointer|topic filter/i);
        const refused = (await (await fetch(`${installation.pagesUrl}/api/ingest/refusals`)).json()) as {
          total: number;
        };
        expect(refused.total).toBe(0);
      } finally {
        await page.close();
        await device.endAsync();
        await installation.stop();
        await rm(dataDir, { recursive: true, force: true });
      }
    },
    120_000,
  );
});
