/**
 * The server with its embedded broker, killed twenty times under load. Every reading that it acknowledged is there once, and every
 * warning reaches the mailbox: a copy may come twice only where the kill fell between the mail server's word and our note of it, and
 * then it carries the same Message-ID. Each kill is a start of the whole program, which is most of what both take, so they share them.
 */
import { join } from 'node:path';
import { connect } from 'mqtt';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { freePort } from '../helpers/free-port.ts';
import { type MailServer, startMailServer } from '../helpers/mail-server.ts';
import { makeDataDir } from '../helpers/open-test-server.ts';
import { type SpawnedInstallation, spawnInstallation } from '../helpers/spawn-server.ts';
import { patienceMs, until } from '../helpers/until.ts';
import { type Load, startLoad, storedNumbers } from './kill-load.ts';

const kills = 20;
const bays = Array.from({ length: kills }, (_, n) => n);
const hourMs = 3_600_000;
const site = 'saltmere-yard';

describe(`after ${kills} kills of a server with its embedded broker`, () => {
  let box: MailServer;
  let load: Load;
  let stored: ReadonlySet<number>;
  const killedAtTaking: number[] = [];
  let removeFolder = async () => {};

  // Each start has the patience of anything that is waited for.
  beforeAll(
    async () => {
      const { dataDir, remove } = await makeDataDir();
      removeFolder = remove;
      box = await startMailServer();
      const environment = {
        MQTT_PORT: String(await freePort()),
        SMTP_URL: box.url,
        MAIL_FROM: 'alarms@saltmere.example',
        ALERT_MAIL_TO: 'ada@saltmere.example',
      };
      const start = () => spawnInstallation(dataDir, { environment });
      let installation = await start();
      await layPiles(installation);
      load = startLoad(installation.mqttUrl, 200);
      for (const bay of bays) {
        const before = load.acknowledged.size;
        // Not waited for: a kill may fall into it, and the probe then finds its way to the next server by itself.
        const measured = measure(installation, bay, [60, 64, 66, 67]);
        // Every third kill falls at the very moment the mail server takes a letter, before it has said so.
        if (bay % 3 === 2) {
          await killAtTaking(installation, box);
          killedAtTaking.push(bay);
        } else {
          const more = 1 + ((bay * 67) % 500);
          await until(`${more} more acknowledged`, () => load.acknowledged.size >= before + more || undefined);
        }
        await installation.stop('SIGKILL');
        installation = await start();
        await measured;
      }
      await load.finish();
      for (const bay of bays) await until(`the warning of bay ${bay}`, () => mailsOf(box, bay).length > 0 || undefined);
      await until('nothing left to send', async () => (await waitingCount(installation)) === 0 || undefined);
      await installation.stop();
      stored = await storedNumbers(join(dataDir, 'readings.db'));
    },
    (kills + 1) * patienceMs,
  );
  afterAll(async () => {
    await box?.close();
    await removeFolder();
  });

  test('every acknowledged reading is there once', () => {
    expect([...load.acknowledged].filter((n) => !stored.has(n))).toEqual([]);
    expect(load.acknowledged.size).toBeGreaterThan(200); // the load was real, however slow the machine
    // Once everything in flight was acknowledged, everything that was sent is there.
    expect(stored.size).toBe(load.sent());
  });

  test('every warning was mailed, and nothing twice but what was under way', () => {
    let copies = 0;
    for (const bay of bays) {
      const mails = mailsOf(box, bay);
      expect([bay, new Set(mails.map(({ parsed }) => parsed.messageId)).size]).toEqual([bay, 1]);
      copies += mails.length - 1;
    }
    console.log(
      `${kills} kills: ${kills} warnings arrived, ${copies} of them twice; ${killedAtTaking.length} kills fell while a letter was being taken`,
    );
    expect(copies).toBeLessThanOrEqual(kills);
    expect(killedAtTaking.length).toBeGreaterThan(0);
  });
});

/** One pile a kill, each with a probe that has measured what is warm and no hazard. */
async function layPiles(installation: SpawnedInstallation): Promise<void> {
  const startedAt = new Date(Date.now() - 48 * hourMs).toISOString();
  await post(installation, '/api/sites', { name: 'Saltmere Yard' });
  for (const bay of bays) {
    const pile = { site, id: `bay-${bay}-end`, name: `Bay ${bay} end`, stage: 'bran', startedAt };
    await post(installation, '/api/piles', pile);
    await measure(installation, bay, [50, 55, 58]);
    await until('the probe', async () =>
      (await fetch(`${installation.pagesUrl}/api/probes`).then((one) => one.text())).includes(`"p${bay}"`)
        ? true
        : undefined,
    );
    const claim = { pileId: `bay-${bay}-end`, position: 'core', since: startedAt };
    await post(installation, `/api/probes/${site}/p${bay}/claim`, claim);
  }
}

async function killAtTaking(installation: SpawnedInstallation, box: MailServer): Promise<void> {
  let taken = false;
  box.onTaken = () => {
    box.onTaken = undefined;
    taken = true;
    installation.child.kill('SIGKILL');
  };
  await until('a letter to be taken', () => taken || undefined);
}

const mailsOf = (box: MailServer, bay: number) =>
  box.mails.filter(({ parsed }) =>
    (parsed.text ?? '').includes(`Bay ${bay} end at Saltmere Yard is heating dangerously`),
  );

/** Messages that are still to go out. */
async function waitingCount(installation: SpawnedInstallation): Promise<number | undefined> {
  const health = (await (await fetch(`${installation.pagesUrl}/api/health`)).json()) as {
    parts: { delivery: { messages: { detail: { params: { waitingCount?: number } } } } };
  };
  return health.parts.delivery.messages.detail.params.waitingCount;
}

async function post(installation: SpawnedInstallation, path: string, payload: object): Promise<void> {
  const answer = await fetch(installation.pagesUrl + path, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(payload),
  });
  if (!answer.ok) throw new Error(`${path}: ${await answer.text()}`);
}

/** The last of them just now, the others in the hours before. */
async function measure(installation: SpawnedInstallation, bay: number, tempsC: readonly number[]): Promise<void> {
  // As a probe does: a server that has just been killed is tried again until the next one answers.
  const probe = connect(installation.mqttUrl, { reconnectPeriod: 250 });
  probe.on('error', () => {});
  const nowMs = Date.now();
  for (const [index, temperature] of tempsC.entries()) {
    const time = new Date(
      nowMs - (tempsC.length - 1 - index) * 20 * 60_000 - (tempsC.length === 3 ? 3 * hourMs : 0),
    ).toISOString();
    await probe.publishAsync(`piles/${site}/p${bay}/reading`, JSON.stringify({ temperature, time }), { qos: 1 });
  }
  await probe.endAsync();
}
