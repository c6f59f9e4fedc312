// The built program on data folders whose database files are damaged: as a whole, or in pages that only some piles need.

import { readFileSync, writeFileSync } from 'node:fs';
import { cp } from 'node:fs/promises';
import { join } from 'node:path';
import { afterEach, beforeAll, describe, expect, test } from 'vitest';
import { healthSchema } from '../../shared/contracts/health.ts';
import { type PileSummary, pilesAnswerSchema } from '../../shared/contracts/piles.ts';
import { openSqliteJournal } from '../../shared/store/journal/sqlite-journal.ts';
import { openSqliteReadings } from '../../shared/store/readings/sqlite-readings.ts';
import Database from '../../shared/store/sqlite-driver.ts';
import { makeDataDir } from '../helpers/open-test-server.ts';
import { spawnInstallation } from '../helpers/spawn-server.ts';
import { until } from '../helpers/until.ts';

const minuteMs = 60_000;
const ids = ['ash', 'beech', 'cedar'];
const closing: (() => unknown)[] = [];
let whole: string;

beforeAll(async () => {
  const made = await makeDataDir();
  whole = made.dataDir;
  const startedAtMs = Date.now() - 3 * 24 * 60 * minuteMs;
  const journal = await openSqliteJournal(join(whole, 'journal.db'));
  await journal.sites.add({ id: 'yard', name: 'Yard', timeZone: null, latitude: null, longitude: null });
  for (const id of ids) {
    const pile = { id, siteId: 'yard', name: id, createdAtMs: startedAtMs };
    const batch = { id: `${id}-1`, pileId: id, startedAtMs, endedAtMs: null, outcome: null, recipe: {}, limits: {} };
    await journal.piles.add(pile, { ...batch, stage: 'bran' });
    await journal.claims.claim({ site: 'yard', probe: id, pileId: id, position: 'core', fromMs: startedAtMs });
  }
  await journal.close();
  // One series after the other, and settled, so that each has pages of its own.
  const readings = openSqliteReadings(join(whole, 'readings.db'), { flushAt: 1_000 });
  for (const probe of ids) {
    const rows = Array.from({ length: 4_000 }, (_, minute) => {
      const atMs = startedAtMs + minute * minuteMs;
      return { site: 'yard', probe, quantity: 'temperature' as const, value: 30 + (minute % 100) / 50, atMs };
    });
    for (let from = 0; from < rows.length; from += 500) await readings.append(rows.slice(from, from + 500));
  }
  await readings.close();
  return made.remove;
});
afterEach(async () => {
  for (const close of closing.splice(0).reverse()) await close();
});

async function copy(): Promise<string> {
  const { dataDir, remove } = await makeDataDir();
  closing.push(remove);
  await cp(whole, dataDir, { recursive: true });
  return dataDir;
}

/** As a bad disk leaves it. */
function overwrite(path: string, fromByte: number, length: number): void {
  const bytes = readFileSync(path);
  bytes.fill(0xa5, fromByte, fromByte + length);
  writeFileSync(path, bytes);
}

describe('a file that is damaged as a whole', () => {
  for (const name of ['journal.db', 'readings.db']) {
    test(`${name}: ends the start with exit code 65 and one line with the file and the command that mends it`, async () => {
      const dataDir = await copy();
      const path = join(dataDir, name);
      overwrite(path, 0, 4_096);
      const error = await spawnInstallation(dataDir, { onExit: (code) => expect(code).toBe(65) }).catch(
        (reason: Error) => reason,
      );
      if (!(error instanceof Error)) throw new Error('it started');
      const said = error.message.split('\n').filter((line) => !line.startsWith('{'));
      expect(said).toHaveLength(1);
      expect(said[0]).toContain(path);
      expect(said[0]).toContain(`npm run restore -- BACKUP.tar.gz --into ${dataDir} --replace`);
    });
  }
});

describe('a file of readings with damaged pages', () => {
  test('is started with: piles whose readings are whole are watched, the others say that theirs cannot be read', async () => {
    const dataDir = await copy();
    const path = join(dataDir, 'readings.db');
    const db = new Database(path);
    db.pragma('wal_checkpoint(TRUNCATE)');
    const pageBytes = Number(db.pragma('page_size', { simple: true }));
    // Leaves of the readings' own tree, the last of which hold the last series.
    const leaves = db
      .prepare<[], number>(`SELECT pageno FROM dbstat WHERE name = 'reading' AND pagetype = 'leaf' ORDER BY path`)
      .pluck()
      .all();
    db.close();
    for (const page of leaves.slice(-3)) overwrite(path, (page - 1) * pageBytes, pageBytes);
    const installation = await spawnInstallation(dataDir);
    closing.push(() => installation.stop('SIGKILL'));
    const piles = async () =>
      new Map(
        pilesAnswerSchema
          .parse(await (await fetch(`${installation.pagesUrl}/api/piles`)).json())
          .piles.map((pile): [string, PileSummary] => [pile.id, pile]),
      );
    const troubled = await until('the damaged one to say so', async () => {
      const cedar = (await piles()).get('cedar');
      return cedar?.trouble && !cedar.trouble.judged ? cedar : undefined;
    });
    expect(troubled.trouble).toMatchObject({ code: 'readings-unreadable' });
    expect(troubled.condition).toBe('Nobody is watching this pile: its readings cannot be read.');
    expect(troubled.trouble?.details[0]).toContain('npm run restore');
    const others = await piles();
    for (const id of ['ash', 'beech']) expect([id, others.get(id)?.trouble]).toEqual([id, undefined]);
    const health = healthSchema.parse(await (await fetch(`${installation.pagesUrl}/api/health`)).json());
    expect(health.parts.piles).toMatchObject({ state: 'degraded', detail: '1 of 3 piles is not watched: cedar' });
  });
});
