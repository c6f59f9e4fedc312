/** Nights come when the test says so; what makes the file is given. */
import { mkdir, readdir, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { NightlyBackups } from '../../../server/backup/nightly-backups.ts';
import { SystemNotices } from '../../../server/health/system-notices.ts';
import { plainEnglish } from '../../../shared/messages/render.ts';
import { makeDataDir } from '../../helpers/open-test-server.ts';

const dayMs = 86_400_000;
const log = { info() {}, error() {} };
let folder: string;
let remove: () => Promise<void>;
let nowMs: number;
let notices: SystemNotices;
let fails: boolean;

beforeEach(async () => {
  ({ dataDir: folder, remove } = await makeDataDir());
  await mkdir(join(folder, 'data'));
  await writeFile(join(folder, 'data/journal.db'), '');
  // Noon, so that no step of a minute passes the hour of the night, whenever this runs.
  nowMs = new Date().setHours(36, 0, 0, 0);
  notices = new SystemNotices();
  fails = false;
});
afterEach(() => remove());

const backups = () => join(folder, 'backups');

function open(more: object = {}) {
  return new NightlyBackups({
    config: {
      DATA_DIR: join(folder, 'data'),
      BACKUPS: 3,
      BACKUP_COMMAND: undefined,
      CLOCK: undefined,
      JOURNAL_URL: undefined,
      READINGS_URL: undefined,
      ...more,
    },
    folder: backups(),
    log,
    notices,
    nowMs: () => nowMs,
    async make(file) {
      if (fails) throw new Error('the disk is full');
      await writeFile(file, 'whole');
    },
  });
}

async function night(nightly: NightlyBackups): Promise<void> {
  await nightly.check();
  await nightly.settled();
}

test('NightlyBackups makes one a night, once, and keeps as many as it is told', async () => {
  const nightly = open();
  for (let n = 0; n < 5; n += 1) {
    await night(nightly);
    await night(nightly);
    nowMs += dayMs;
  }
  expect(await readdir(backups())).toHaveLength(3);
  const { state, keep, lastGoodAt, isOld, backups: shown } = await nightly.view();
  expect({ state, keep, isOld, shown: shown.length }).toEqual({ state: 'on', keep: 3, isOld: false, shown: 3 });
  // To the second, as its name has it.
  expect(nowMs - dayMs - Date.parse(lastGoodAt ?? '')).toBeLessThan(1_000);
});

test('NightlyBackups of an earlier run counts: a start makes no second one that night', async () => {
  await night(open());
  const [made] = await readdir(backups());
  nowMs += 60_000;
  await night(open());
  expect(await readdir(backups())).toEqual([made]);
});

test('NightlyBackups that fail are tried again each hour, keep what is there, and owners hear of it after three days, until one is good', async () => {
  const nightly = open();
  await night(nightly);
  fails = true;
  for (let hours = 0; hours < 72; hours += 1) {
    expect(notices.standing()).toEqual([]);
    nowMs += dayMs / 24;
    await night(nightly);
  }
  nowMs += dayMs / 24;
  await night(nightly);
  const [notice] = notices.standing();
  expect(notice).toMatchObject({ kind: 'backup', severity: 'warning' });
  expect(notice && plainEnglish(notice.seen)).toBe('There is no good backup of the last 3 days: the disk is full.');
  expect(await nightly.view()).toMatchObject({ isOld: true, problem: 'the disk is full' });
  expect(await readdir(backups())).toHaveLength(1);
  fails = false;
  nowMs += dayMs / 24;
  await night(nightly);
  expect(notices.standing()).toEqual([]);
  expect(await nightly.view()).toMatchObject({ isOld: false, problem: null });
});

test('NightlyBackups hand each good one to the owner’s command, and say when that failed', async () => {
  const copied = join(folder, 'elsewhere');
  const nightly = open({ BACKUP_COMMAND: `cp "$BRANHEARTH_BACKUP_FILE" '${copied}'` });
  await night(nightly);
  expect(await readFile(copied, 'utf8')).toBe('whole');
  const failing = open({ BACKUP_COMMAND: 'echo nobody is there >&2; exit 3' });
  nowMs += dayMs;
  await night(failing);
  expect(await failing.view()).toMatchObject({ problem: 'nobody is there' });
  expect(await readdir(backups())).toHaveLength(2);
});

test.each([
  ['off', 'off when told so', { BACKUPS: 0 }],
  ['off', 'off under a clock that runs fast', { CLOCK: { startMs: 0, anchorMs: 0, speed: 600 } }],
  ['elsewhere', 'not theirs where all is at servers', { JOURNAL_URL: 'postgres://a/b', READINGS_URL: 'http://a' }],
])('NightlyBackups are %s: %s', async (state, _why, config) => {
  const nightly = open(config);
  await nightly.start();
  await nightly.settled();
  await nightly.close();
  expect(await nightly.view()).toMatchObject({ state, folder: null, backups: [] });
  expect(await readdir(folder)).toEqual(['data']);
});
