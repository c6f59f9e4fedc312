/** Where a pile’s air comes from, on its page on a phone: another neighbour’s probe, then the weather, when the one before falls silent. */
import { connectAsync, type MqttClient } from 'mqtt';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { hasChromium, launchBrowser } from '../helpers/browser.ts';
import { makeDataDir } from '../helpers/open-test-server.ts';
import { type SpawnedInstallation, spawnInstallation } from '../helpers/spawn-server.ts';
import { keepPicture } from '../helpers/spawned-page.ts';
import { patienceMs } from '../helpers/until.ts';

const minuteMs = 60_000;
const hourMs = 60 * minuteMs;

let installation: SpawnedInstallation;
let page: Page;
let probes: MqttClient;
const nowMs = Date.now();
const closing: (() => Promise<unknown>)[] = [];

beforeAll(async () => {
  if (!hasChromium) return;
  const folder = await makeDataDir();
  installation = await spawnInstallation(folder.dataDir);
  const browser = await launchBrowser();
  probes = await connectAsync(installation.mqttUrl);
  closing.push(
    () => probes.endAsync(),
    () => browser.close(),
    () => installation.stop(),
    () => folder.remove(),
  );
  page = await browser.newPage({ viewport: { width: 390, height: 844 }, locale: 'en-GB', timezoneId: 'UTC' });
  page.setDefaultTimeout(patienceMs);
});
afterAll(async () => {
  for (const close of closing) await close();
});

const send = async (path: string, body: object) => {
  const headers = { 'content-type': 'application/json' };
  const answer = await fetch(installation.pagesUrl + path, { method: 'POST', headers, body: JSON.stringify(body) });
  if (!answer.ok) throw new Error(`${path}: ${answer.status} ${await answer.text()}`);
};

/** Every ten minutes of the last twelve hours until so many hours ago. */
const say = async (site: string, probe: string, tempC: number, untilH: number) => {
  for (let atMs = nowMs - 12 * hourMs; atMs <= nowMs - untilH * hourMs; atMs += 10 * minuteMs)
    await probes.publishAsync(`piles/${site}/${probe}/reading`, JSON.stringify({ temperature: tempC, time: atMs }), {
      qos: 1,
    });
};

const lay = async (site: string, id: string, name: string, probe: string, position: 'core' | 'air', agoH = 12) => {
  const startedAt = new Date(nowMs - agoH * hourMs).toISOString();
  await send('/api/piles', { site, id, name, stage: 'bran', startedAt });
  await send(`/api/probes/${site}/${probe}/claim`, { pileId: id, position, from: startedAt });
};

test.runIf(hasChromium)(
  'the page of a pile says by whose air it is judged: of another neighbour where the first is silent, else foretold',
  async () => {
    await send('/api/sites', { name: 'Saltmere Yard' });
    await send('/api/sites', { name: 'Upper Terrace' });
    await say('saltmere-yard', 'deep', 38, 0);
    await say('saltmere-yard', 'shade', 12, 5);
    await say('saltmere-yard', 'lee', 14, 0);
    await say('upper-terrace', 'far', 38, 0);
    await send('/api/sites/upper-terrace/air-ahead', {
      source: 'the terrace’s mast',
      points: Array.from({ length: 37 }, (_, hour) => ({
        at: (nowMs + (hour - 12) * hourMs) / 1000,
        temperatureC: 11,
      })),
    });
    await lay('saltmere-yard', 'cart-shed', 'Cart shed', 'deep', 'core');
    await lay('saltmere-yard', 'barn', 'Barn', 'shade', 'air');
    await lay('saltmere-yard', 'byre', 'Byre', 'lee', 'air', 11); // claimed after that of the barn, so the second choice
    await lay('upper-terrace', 'vine-row', 'Vine row', 'far', 'core');
    await page.goto(`${installation.pagesUrl}/piles/cart-shed`);
    const byNeighbour = page.getByText(/^The air probe is silent\. The pile is judged by/);
    await byNeighbour.waitFor();
    expect((await byNeighbour.textContent())?.replaceAll('\u00a0', ' ')).toMatch(
      /^The air probe is silent\. The pile is judged by the air measured at Byre and not here: 14 °C, (just now|\d+ minutes? ago)\.$/,
    );
    await keepPicture(page, 'air-of-another-neighbour');

    await page.goto(`${installation.pagesUrl}/piles/vine-row`);
    const foretold = page.getByText(/^No probe measures the air here\./);
    await foretold.waitFor();
    expect((await foretold.textContent())?.replaceAll('\u00a0', ' ')).toMatch(
      /^No probe measures the air here\. The pile is judged by the air foretold for the site: 11 °C, from the terrace’s mast, made (just now|\d+ minutes? ago)\. It was not measured; beside the pile it may differ by up to 5 (K|°C)\.$/,
    );
    await page
      .getByText(/27\s°C above the air/)
      .first()
      .waitFor();
    await keepPicture(page, 'air-foretold');
  },
  120_000,
);
