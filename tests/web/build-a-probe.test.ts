/** From parts to a reading: somebody picks what runs on a board, presses for a key, and what the page gives is run before the broker. */
import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { connectAsync } from 'mqtt';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { RefusalsAnswer } from '../../shared/contracts/ingest.ts';
import type { ProbesAnswer } from '../../shared/contracts/probes.ts';
import { hasChromium, launchBrowser } from '../helpers/browser.ts';
import { type SpawnedInstallation, spawnInstallation } from '../helpers/spawn-server.ts';
import { until } from '../helpers/until.ts';
import { ArduinoBoard, hasCompiler } from '../ingest/probes/board/arduino-board.ts';
import type { Board } from '../ingest/probes/board/board.ts';
import { readEsphome } from '../ingest/probes/board/esphome-schema.ts';
import { MicroPythonBoard } from '../ingest/probes/board/micropython-board.ts';
import { readTasmotaLine, sensorMessage } from '../ingest/probes/board/tasmota-line.ts';

let dataDir: string;
let installation: SpawnedInstallation;
let browser: Browser;

describe.skipIf(!hasChromium)('a probe built by its page', () => {
  beforeAll(async () => {
    dataDir = await mkdtemp(join(tmpdir(), 'branhearth-build-'));
    [installation, browser] = await Promise.all([spawnInstallation(dataDir), launchBrowser()]);
  });
  afterAll(async () => {
    await browser?.close();
    await installation?.stop();
    await rm(dataDir, { recursive: true, force: true });
  });

  async function kept(name: RegExp): Promise<number> {
    return until(`a reading of ${name}`, async () => {
      const answer = await fetch(`${installation.pagesUrl}/api/probes`);
      const { probes } = (await answer.json()) as ProbesAnswer;
      return probes.find(({ site, probe }) => site === 'saltmere-yard' && name.test(probe))?.last.temperatureC;
    });
  }

  async function wakeOnce(board: Board, chipC: number): Promise<void> {
    const worldMs = Date.now();
    await board.wake({ worldMs, hasNetwork: true, hasTimeServer: true, chipC, pinsV: { 34: 1.7 }, mayAskBroker: -1 });
  }

  /** Picks, types, presses; @returns the file that the browser kept. */
  async function take(page: Page, firmware: string, probe: string): Promise<string> {
    await page.goto(`${installation.pagesUrl}/help/probe`);
    await page.getByLabel(firmware, { exact: true }).check();
    await page.getByLabel('Site', { exact: true }).fill('saltmere-yard');
    await page.getByLabel('Probe', { exact: true }).fill(probe);
    await page.getByRole('button', { name: 'Make the key' }).click();
    const link = page.getByRole('link', { name: /^Take / });
    await link.waitFor();
    const [download] = await Promise.all([page.waitForEvent('download'), link.click()]);
    const wider = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
    expect(wider).toBe(0);
    return readFile(await download.path(), 'utf8');
  }

  for (const width of [390, 1440]) {
    const open = async () => (await browser.newContext({ viewport: { width, height: 844 } })).newPage();

    test(`MicroPython at ${width} px: what the page gives runs, and its reading is there`, async () => {
      const page = await open();
      await wakeOnce(new MicroPythonBoard(await take(page, 'MicroPython', `m${width}`)), 41.5);
      expect(await kept(new RegExp(`^m${width}$`))).toBe(41.5);
      await page.reload();
      await page.getByRole('heading', { level: 1, name: 'Build a probe' }).waitFor();
      const stored = await page.evaluate(() => JSON.stringify([{ ...localStorage }, { ...sessionStorage }]));
      expect(stored).not.toContain('key-');
      expect(await page.getByRole('link', { name: /^Take / }).count()).toBe(0);
      await page.close();
    });

    test.skipIf(!hasCompiler)(`Arduino at ${width} px: the same`, async () => {
      const page = await open();
      const board = new ArduinoBoard(await take(page, 'Arduino', `a${width}`));
      await wakeOnce(board, 42.5);
      expect(await kept(new RegExp(`^a${width}$`))).toBe(42.5);
      board.remove();
      await page.close();
    });

    test(`ESPHome at ${width} px: the file stands to its documentation, and what it then says is read`, async () => {
      const page = await open();
      const { mqtt, sensor } = readEsphome(await take(page, 'ESPHome', `e${width}`));
      const client = await connectAsync({
        host: mqtt.broker,
        port: mqtt.port,
        username: mqtt.username,
        password: mqtt.password,
      });
      await client.publishAsync(sensor[0]?.state_topic ?? '', '43.5', { qos: 1 });
      expect(await kept(new RegExp(`^e${width}$`))).toBe(43.5);
      await client.endAsync();
      await page.close();
    });

    test(`Tasmota at ${width} px: the line and its QR code, and what it then says is read`, async () => {
      const page = await open();
      const line = readTasmotaLine((await take(page, 'Tasmota', `t${width}`)).trim());
      await page.getByRole('img', { name: 'QR code with the same line' }).waitFor();
      const { MqttHost: host = '', MqttPort, MqttUser = '', MqttPassword = '', Topic } = line;
      const client = await connectAsync({ host, port: Number(MqttPort), username: MqttUser, password: MqttPassword });
      await client.publishAsync(`tele/${Topic}/LWT`, 'Online', { retain: true });
      await client.publishAsync(`stat/${Topic}/RESULT`, '{"TelePeriod":300}');
      await client.publishAsync(`tele/${Topic}/SENSOR`, sensorMessage(44.5), { qos: 1 });
      expect(await kept(new RegExp(`^t${width}-`))).toBe(44.5);
      await client.endAsync();
      await page.close();
    });
  }

  test('nothing of all that was refused', async () => {
    const { refusals } = (await (await fetch(`${installation.pagesUrl}/api/ingest/refusals`)).json()) as RefusalsAnswer;
    expect(refusals.map(({ reason, last }) => [reason, last])).toEqual([]);
  });

  test('whoever has a key enters it, and gets the file without asking for another', async () => {
    const page = await browser.newPage();
    await page.goto(`${installation.pagesUrl}/help/probe`);
    await page.getByLabel('Probe', { exact: true }).fill('p-own');
    await page.getByLabel('Site', { exact: true }).fill('saltmere-yard');
    await page.getByText('I have a key').click();
    await page.getByLabel('Address of the broker').fill('192.168.7.20');
    await page.getByLabel('User name').fill('key-1');
    await page.getByLabel('Password', { exact: true }).fill('secret');
    await page.getByText('See the file').click();
    await page.getByText('BROKER = "192.168.7.20"').waitFor();
    await page.close();
  });
});
