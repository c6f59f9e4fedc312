/**
 * From a reading to a mailbox, with the built program: a simulated heap that is left too deep, and the hazard of self-heating.
 * What it took is printed; it is no assertion, since the machine may be busy.
 */
import { connectAsync, type MqttClient } from 'mqtt';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { alarmsAnswerSchema } from '../../shared/contracts/alarms.ts';
import { farmOf } from '../../simulator/farm/farm.ts';
import { type FarmReading, playFarm } from '../../simulator/farm/play-farm.ts';
import { scenarioSchema } from '../../simulator/scenario/scenario-schema.ts';
import { type MailServer, startMailServer } from '../helpers/mail-server.ts';
import { makeDataDir } from '../helpers/open-test-server.ts';
import { type SpawnedInstallation, spawnInstallation } from '../helpers/spawn-server.ts';
import { until } from '../helpers/until.ts';

const hourMs = 3_600_000;
const site = 'saltmere-yard';
let box: MailServer;
beforeAll(async () => {
  box = await startMailServer();
});
afterAll(() => box.close());

const mailing = () => ({
  SMTP_URL: box.url,
  MAIL_FROM: 'alarms@saltmere.example',
  ALERT_MAIL_TO: 'ada@saltmere.example',
  LOG_LEVEL: 'info',
});

async function post(installation: SpawnedInstallation, path: string, payload: object): Promise<void> {
  const answer = await fetch(installation.pagesUrl + path, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(payload),
  });
  if (!answer.ok) throw new Error(`${path}: ${await answer.text()}`);
}

async function layPile(
  installation: SpawnedInstallation,
  probe: MqttClient,
  startedAtMs: number,
  first: FarmReading,
): Promise<void> {
  await post(installation, '/api/sites', { name: 'Saltmere Yard' });
  await post(installation, '/api/piles', {
    site,
    id: 'deep-heap',
    name: 'Deep heap',
    stage: 'bran',
    startedAt: new Date(startedAtMs).toISOString(),
  });
  await publish(probe, first);
  await until('the probe', async () => {
    const { probes } = (await (await fetch(`${installation.pagesUrl}/api/probes`)).json()) as { probes: unknown[] };
    return probes.length > 0 ? true : undefined;
  });
  const claim = { pileId: 'deep-heap', position: 'core', since: new Date(startedAtMs).toISOString() };
  await post(installation, `/api/probes/${site}/core/claim`, claim);
}

const publish = (probe: MqttClient, { atMs, values }: FarmReading) =>
  probe.publishAsync(
    `piles/${site}/core/reading`,
    JSON.stringify({ temperature: values.temperature, time: new Date(atMs).toISOString() }),
    { qos: 1 },
  );

function simulated(startMs: number): FarmReading[] {
  const scenario = scenarioSchema.parse({
    name: 'left too deep',
    sites: [
      {
        name: site,
        climate: { meanC: 24, seasonK: 0, rhPct: 60 },
        piles: [
          {
            name: 'deep heap',
            recipe: { ingredients: [{ material: 'wheat-bran', massKg: 400 }], moistureFrac: 0.6, depthM: 0.7 },
            probes: [{ name: 'core', position: 'core' }],
          },
        ],
      },
    ],
  });
  const played = playFarm(farmOf(scenario, 3, startMs), { untilMs: startMs + 96 * hourMs });
  return [...played].filter(
    (one): one is FarmReading => one.kind === 'reading' && one.values.temperature !== undefined,
  );
}

test('a simulated heap that overheats is in the mailbox within moments of being raised', async () => {
  const startMs = Date.UTC(2031, 5, 1);
  const readings = simulated(startMs);
  const crossed = readings.find(({ values }) => (values.temperature ?? 0) > 50);
  if (!crossed) throw new Error('the simulated heap never passed 50 °C');
  const { dataDir, remove } = await makeDataDir();
  const clock = { startMs: crossed.atMs - hourMs, anchorMs: Date.now() + 6_000, speed: 400 };
  const installation = await spawnInstallation(dataDir, {
    environment: { ...mailing(), CLOCK: JSON.stringify(clock) },
  });
  const probe = await connectAsync(installation.mqttUrl);
  const machineMs = (serverMs: number) => clock.anchorMs + (serverMs - clock.startMs) / clock.speed;
  const sentAt: { serverMs: number; machineMs: number }[] = [];
  const [first, ...rest] = readings as [FarmReading, ...FarmReading[]];
  await layPile(installation, probe, startMs, first);
  let isOver = false;
  const sending = (async () => {
    for (const reading of rest) {
      const waitMs = machineMs(reading.sendAtMs) - Date.now();
      if (waitMs > 0) await new Promise((resolve) => setTimeout(resolve, waitMs));
      if (isOver) return;
      await publish(probe, reading);
      sentAt.push({ serverMs: reading.atMs, machineMs: Date.now() });
    }
  })();
  const mail = await until('the e-mail', () =>
    box.mails.find(({ parsed }) => /Deep heap at Saltmere Yard is too hot/.test(parsed.text ?? '')),
  );
  isOver = true;
  await sending;
  const answer = await (await fetch(`${installation.pagesUrl}/api/piles/deep-heap/alarms`)).json();
  const alarm = alarmsAnswerSchema.parse(answer).alarms.find(({ kind }) => kind === 'overheating');
  const raisedMs = machineMs(Date.parse(alarm?.since ?? ''));
  const lastReading = sentAt.findLast(({ machineMs: at }) => at <= raisedMs + 200);
  console.log(
    `overheating: in the mailbox ${Math.round(mail.atMs - raisedMs)} ms after it was raised, ${Math.round(mail.atMs - (lastReading?.machineMs ?? 0))} ms after the reading before that was acknowledged`,
  );
  expect(mail.atMs - raisedMs).toBeLessThan(20_000);
  await probe.endAsync();
  await installation.stop();
  await remove();
});

test('the hazard of self-heating is in the mailbox within moments of its second reading', async () => {
  const { dataDir, remove } = await makeDataDir();
  const installation = await spawnInstallation(dataDir, { environment: mailing() });
  const probe = await connectAsync(installation.mqttUrl);
  const nowMs = Date.now();
  const reading = (agoMs: number, temperature: number): FarmReading => ({
    kind: 'reading',
    site,
    probe: 'core',
    atMs: nowMs - agoMs,
    sendAtMs: nowMs - agoMs,
    values: { temperature },
  });
  await layPile(installation, probe, nowMs - 48 * hourMs, reading(6 * hourMs, 58));
  for (const [agoMin, tempC] of [
    [180, 60],
    [120, 62],
    [60, 63.5],
    [10, 66],
  ] as const)
    await publish(probe, reading(agoMin * 60_000, tempC));
  await publish(probe, reading(1_000, 67));
  const acknowledgedMs = Date.now();
  const mail = await until('the e-mail', () =>
    box.mails.find(({ parsed }) => /Deep heap at Saltmere Yard is heating dangerously/.test(parsed.text ?? '')),
  );
  console.log(`self-heating: in the mailbox ${mail.atMs - acknowledgedMs} ms after its reading was acknowledged`);
  expect(mail.parsed.text).toMatch(/local fire service/);
  expect(mail.raw).toMatch(/^X-Priority: 1/m);
  await probe.endAsync();
  await installation.stop();
  await remove();
});
