// Piles that cannot be kept, or not be read, while the others go on; the journal refuses what an invented trigger says.

import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { systemUnwell } from '../../server/notify/system-unwell.ts';
import type { Clock } from '../../shared/clock.ts';
import { healthSchema } from '../../shared/contracts/health.ts';
import { type PileDetail, pileDetailSchema } from '../../shared/contracts/piles.ts';
import { message } from '../../shared/messages/message.ts';
import { plainEnglish } from '../../shared/messages/render.ts';
import { partHealth } from '../../shared/part-health.ts';
import Database from '../../shared/store/sqlite-driver.ts';
import { commitReadings } from '../helpers/commit-readings.ts';
import { type MailServer, startMailServer } from '../helpers/mail-server.ts';
import { makeDataDir, openTestInstallation, type TestInstallation } from '../helpers/open-test-server.ts';
import { until } from '../helpers/until.ts';

const minuteMs = 60_000;
const laidMs = Date.UTC(2031, 4, 1, 6);
const ids = ['ash', 'beech', 'cedar', 'dogwood', 'elm', 'fir'] as const;
let nowMs: number;
const clock: Clock = { nowMs: () => nowMs, speed: 1 };
let box: MailServer;
let one: TestInstallation;
let dataDir: string;
let remove: () => Promise<void>;

beforeEach(async () => {
  nowMs = laidMs;
  box = await startMailServer();
  ({ dataDir, remove } = await makeDataDir());
  await open();
  await post('/api/sites', { name: 'Saltmere Yard' });
  for (const id of ids) {
    await post('/api/piles', { site: 'saltmere-yard', id, name: id, stage: 'bran' });
    await measure(id, 24);
    await post(`/api/probes/saltmere-yard/${id}/claim`, { pileId: id, position: 'core' });
  }
});
afterEach(async () => {
  await one.close();
  await box.close();
  await remove();
});

async function open() {
  const mail = { SMTP_URL: box.url, MAIL_FROM: 'alarms@saltmere.example', ALERT_MAIL_TO: 'ada@saltmere.example' };
  one = await openTestInstallation(dataDir, mail, clock);
}

async function post(url: string, payload: object = {}) {
  const answer = await one.app.inject({ method: 'POST', url, payload });
  if (answer.statusCode >= 300) throw new Error(`${url}: ${answer.body}`);
}

async function measure(id: string, coreC: number) {
  const reading = { site: 'saltmere-yard', probe: id, quantity: 'temperature' as const, value: coreC, atMs: nowMs };
  await commitReadings(one.installation, [reading]);
}

const detail = async (id: string): Promise<PileDetail> =>
  pileDetailSchema.parse((await one.app.inject({ url: `/api/piles/${id}` })).json());

/** As somebody else would who has the file. */
function journalFile(sql: string): void {
  const db = new Database(join(dataDir, 'journal.db'), { timeout: 5_000 });
  db.exec(sql);
  db.close();
}

function refuseToKeep(refused: readonly string[], also = ''): void {
  const named = refused.map((id) => `'${id}'`).join(', ');
  for (const table of ['watch', 'alarm']) {
    for (const act of ['INSERT', 'UPDATE']) {
      journalFile(
        `CREATE TRIGGER refuse_${table}_${act} BEFORE ${act} ON ${table} WHEN NEW.pile_id IN (${named})
         BEGIN SELECT RAISE(ABORT, 'an invented fault'); END`,
      );
    }
  }
  if (also) journalFile(also);
}

function acceptAgain(): void {
  for (const table of ['watch', 'alarm']) {
    for (const act of ['INSERT', 'UPDATE']) journalFile(`DROP TRIGGER refuse_${table}_${act}`);
  }
  journalFile('DROP TRIGGER IF EXISTS refuse_notice');
}

/** All warm, `hot` overheats; read every ten minutes. */
async function heat(hot: string, peakC = 72) {
  for (let step = 0; step < (peakC - 24) * 2; step++) {
    nowMs += 10 * minuteMs;
    for (const id of ids) await measure(id, id === hot ? Math.min(peakC, 24 + step / 2) : 30);
  }
}

/** Looks on until it stands, as time and readings go on. */
function alarmOf(id: string, kind = 'overheating') {
  return until(`${kind} at ${id}`, async () => {
    nowMs += 10 * minuteMs;
    for (const other of ids) await measure(other, other === id ? 72 : 30);
    await new Promise((resolve) => setTimeout(resolve, 250));
    return (await detail(id)).alarms.find((alarm) => alarm.kind === kind);
  });
}

const mailsAbout = (name: string) => box.mails.filter(({ parsed }) => parsed.subject?.startsWith(`${name}: too hot`));

describe('piles that cannot be kept', () => {
  const refused = ids.slice(0, 5);

  test('hold up nobody: the one that can be is judged, kept and told', async () => {
    refuseToKeep(refused);
    await heat('fir');
    const alarm = await alarmOf('fir');
    await until('it to be kept', async () => one.installation.journal.alarms.get(alarm.id));
    await until('the e-mail', () => mailsAbout('fir')[0]);
  });

  test('are named by health and by what holds the heartbeat, and are themselves judged on', async () => {
    refuseToKeep(refused);
    await heat('ash');
    await alarmOf('ash');
    const { parts } = await until('health to say so', async () => {
      const health = healthSchema.parse((await one.app.inject({ url: '/api/health' })).json());
      return health.parts.piles.state === 'degraded' ? health : undefined;
    });
    expect(parts.piles.detail).toContain('ash');
    expect((await detail('ash')).trouble).toMatchObject({ code: 'not-kept', judged: true });
    const { readings, journal, watching } = one.installation;
    if (!watching) throw new Error('nobody watches here');
    const unwell = await systemUnwell({
      readings,
      journal,
      watch: watching,
      broker: () => partHealth('ok', message('health.broker.no-site')),
    });
    expect(unwell && plainEnglish(unwell)).toMatch(/ of 6 piles .* cannot be kept: ash/);
  });

  for (const [what, also] of [
    ['though the outbox can', ''],
    [
      'nor the outbox written',
      `CREATE TRIGGER refuse_notice BEFORE INSERT ON notice WHEN NEW.about = 'alarm' BEGIN SELECT RAISE(ABORT, 'an invented fault'); END`,
    ],
  ] as const) {
    test(`are warned of all the same, once, where no alarm can be kept ${what}; and it is kept when it can be`, async () => {
      refuseToKeep(refused, also);
      await heat('ash');
      const { id } = await alarmOf('ash');
      await until('the e-mail', () => mailsAbout('ash')[0]);
      expect(await one.installation.journal.alarms.get(id)).toBeUndefined();
      acceptAgain();
      await until('the alarm to be kept', async () => {
        await measure('ash', 72);
        return one.installation.journal.alarms.get(id);
      });
      const told = await until('its notice to be settled', async () => {
        const notices = await one.installation.journal.notifications.notices.ofAlarm(id);
        return notices.find(({ state }) => state === 'fanned-out');
      });
      expect(told.messages.map(({ state }) => state)).toEqual(['sent']);
      await one.installation.delivery.settled();
      expect(mailsAbout('ash')).toHaveLength(1);
      expect((await detail('ash')).trouble).toBeUndefined();
    });
  }
});

describe('a pile that cannot be read', () => {
  test('is shown as that, told to owners, and counted; the others are watched, and it is again once it can be read', async () => {
    await one.close();
    journalFile(`UPDATE batch SET stage = 'wall' WHERE pile_id = 'ash'`);
    await open();
    const ash = await detail('ash');
    expect(ash.trouble).toMatchObject({ code: 'batch-unreadable', judged: false });
    expect(ash.condition).toBe('Nobody is watching this pile: the record of its batch cannot be read.');
    expect(ash.positions.core).toMatchObject({ temperatureC: 24 });
    const answer = await one.app.inject({ url: '/api/health' });
    expect([answer.statusCode, healthSchema.parse(answer.json()).parts.piles]).toMatchObject([
      200,
      { state: 'degraded', detail: '1 of 6 piles is not watched: ash' },
    ]);
    await until('the owners to be told', () =>
      box.mails.find(({ parsed }) => /1 of 6 piles is not watched: ash/.test(parsed.text ?? '')),
    );
    await heat('beech');
    await alarmOf('beech');
    journalFile(`UPDATE batch SET stage = 'bran' WHERE pile_id = 'ash'`);
    await until(
      'it to be watched',
      async () => ((await detail('ash')).trouble === undefined ? true : undefined),
      90_000,
    );
    expect((await detail('ash')).batch).not.toBeNull();
  });
});
