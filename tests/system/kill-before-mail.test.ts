/**
 * Killed between raising and sending, twenty times: every warning reaches the mailbox. A copy may come twice only where the
 * kill fell between the mail server's word and our note of it, and then it carries the same Message-ID.
 */
import { connect } from 'mqtt';
import { expect, test } from 'vitest';
import { freePort } from '../helpers/free-port.ts';
import { startMailServer } from '../helpers/mail-server.ts';
import { makeDataDir } from '../helpers/open-test-server.ts';
import { type SpawnedInstallation, spawnInstallation } from '../helpers/spawn-server.ts';
import { until } from '../helpers/until.ts';

const kills = 20;
const hourMs = 3_600_000;
const site = 'saltmere-yard';

test(`nothing is left unsent after ${kills} kills, and nothing is sent twice but what was under way`, async () => {
  const { dataDir, remove } = await makeDataDir();
  const box = await startMailServer();
  const mqttPort = String(await freePort());
  const environment = {
    MQTT_PORT: mqttPort,
    SMTP_URL: box.url,
    MAIL_FROM: 'alarms@saltmere.example',
    ALERT_MAIL_TO: 'ada@saltmere.example',
    LOG_LEVEL: 'warn',
  };
  const start = () => spawnInstallation(dataDir, { environment: { ...environment, LOG_LEVEL: 'info' } });
  let installation = await start();
  const startedAt = new Date(Date.now() - 48 * hourMs).toISOString();
  await post(installation, '/api/sites', { name: 'Saltmere Yard' });
  for (let n = 0; n < kills; n++) {
    await post(installation, '/api/piles', {
      site,
      id: `bay-${n}-end`,
      name: `Bay ${n} end`,
      stage: 'bran',
      startedAt,
    });
    await measure(installation, n, [50, 55, 58]);
    await until('the probe', async () =>
      (await fetch(`${installation.pagesUrl}/api/probes`).then((one) => one.text())).includes(`"p${n}"`)
        ? true
        : undefined,
    );
    await post(installation, `/api/probes/${site}/p${n}/claim`, {
      pileId: `bay-${n}-end`,
      position: 'core',
      since: startedAt,
    });
  }

  const underWay: number[] = [];
  for (let n = 0; n < kills; n++) {
    // Every third kill falls at the very moment the mail server takes a letter, before it has said so.
    const atTaking = n % 3 === 2;
    const killed = new Promise<void>((resolve) => {
      if (!atTaking) return resolve();
      const timer = setTimeout(resolve, 10_000);
      box.onTaken = () => {
        clearTimeout(timer);
        box.onTaken = undefined;
        underWay.push(n);
        installation.child.kill('SIGKILL');
        resolve();
      };
    });
    // Not waited for: a kill may fall into it, and the probe then finds its way to the next server by itself.
    const measured = measure(installation, n, [60, 64, 66, 67]);
    if (!atTaking) await measured;
    if (!atTaking) await new Promise((resolve) => setTimeout(resolve, (n * 67) % 500));
    await killed;
    await installation.stop('SIGKILL');
    installation = await start();
    await measured;
  }

  const of = (n: number) =>
    box.mails.filter(({ parsed }) =>
      (parsed.text ?? '').includes(`Bay ${n} end at Saltmere Yard is heating dangerously`),
    );
  for (let n = 0; n < kills; n++)
    await until(`the warning of bay ${n}`, () => (of(n).length > 0 ? true : undefined), 90_000);
  // One more run with nothing to do: whatever would still go out has time to.
  await new Promise((resolve) => setTimeout(resolve, 3_000));
  await installation.stop();

  let copies = 0;
  for (let n = 0; n < kills; n++) {
    const mails = of(n);
    expect([n, new Set(mails.map(({ parsed }) => parsed.messageId)).size]).toEqual([n, 1]);
    copies += mails.length - 1;
  }
  console.log(
    `${kills} kills: ${kills} warnings arrived, ${copies} of them twice; ${underWay.length} kills fell while a letter was being taken`,
  );
  expect(copies).toBeLessThanOrEqual(kills);
  expect(underWay.length).toBeGreaterThan(0);
  await box.close();
  await remove();
}, 600_000);

async function post(installation: SpawnedInstallation, path: string, payload: object): Promise<void> {
  const answer = await fetch(installation.pagesUrl + path, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(payload),
  });
  if (!answer.ok) throw new Error(`${path}: ${await answer.text()}`);
}

/** The last of them just now, the others in the hours before. */
async function measure(installation: SpawnedInstallation, n: number, tempsC: readonly number[]): Promise<void> {
  // As a probe does: a server that has just been killed is tried again until the next one answers.
  const probe = connect(installation.mqttUrl, { reconnectPeriod: 250 });
  probe.on('error', () => {});
  const nowMs = Date.now();
  for (const [index, temperature] of tempsC.entries()) {
    const time = new Date(
      nowMs - (tempsC.length - 1 - index) * 20 * 60_000 - (tempsC.length === 3 ? 3 * hourMs : 0),
    ).toISOString();
    await probe.publishAsync(`piles/${site}/p${n}/reading`, JSON.stringify({ temperature, time }), { qos: 1 });
  }
  await probe.endAsync();
}
