// An installation in which every kind of row of the journal is damaged in turn, one at a time: it starts, watches the other
// pile, and says what is wrong.
import { cp } from 'node:fs/promises';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { healthSchema } from '../../shared/contracts/health.ts';
import { pileDetailSchema, pilesAnswerSchema } from '../../shared/contracts/piles.ts';
import { openSqliteJournal } from '../../shared/store/sqlite-journal.ts';
import { openSqliteReadings } from '../../shared/store/sqlite-readings.ts';
import { makeDataDir, openTestInstallation, type TestInstallation } from '../helpers/open-test-server.ts';
import { until } from '../helpers/until.ts';
import { besideSqlite } from '../shared/store/beside-sqlite.ts';
import { type Damage, damagesOf, fillEveryTable } from '../shared/store/damage.ts';
import { keysOf } from '../shared/store/journal-damage-contract.ts';
import { beginMs, branPile, hourMs, soilPile, terrace, yard } from '../shared/store/journal-sample.ts';

const clock = { nowMs: () => beginMs + 40 * hourMs, speed: 1 };
let whole: Awaited<ReturnType<typeof makeDataDir>>;

beforeAll(async () => {
  whole = await makeDataDir();
  const journal = await openSqliteJournal(join(whole.dataDir, 'journal.db'));
  await fillEveryTable(journal);
  await journal.close();
  const readings = openSqliteReadings(join(whole.dataDir, 'readings.db'));
  const hours = Array.from({ length: 40 }, (_, hour) => beginMs + hour * hourMs);
  await readings.append(
    hours.flatMap((atMs, hour) => [
      { site: yard.id, probe: 'p1', quantity: 'temperature' as const, value: 24 + hour / 2, atMs },
      { site: terrace.id, probe: 'p2', quantity: 'temperature' as const, value: 18 + hour / 10, atMs },
    ]),
  );
  await readings.close();
});
afterAll(() => whole.remove());

/** Opens a copy in which one value of the bran pile's rows is damaged. */
async function withDamage(damage: Damage, run: (one: TestInstallation) => Promise<void>): Promise<void> {
  const { dataDir, remove } = await makeDataDir();
  await cp(whole.dataDir, dataDir, { recursive: true });
  const beside = besideSqlite(join(dataDir, 'journal.db'));
  const row = (await beside.rows(damage.table)).find(
    (one) => !/"(soil-bay|saltmere-terrace)/.test(JSON.stringify(one)),
  );
  const { [damage.column]: _, ...keys } = keysOf(damage.table, row ?? {});
  await beside.set(damage, keys, { sql: damage.value });
  const one = await openTestInstallation(dataDir, {}, clock);
  try {
    await run(one);
  } finally {
    await one.close();
    await remove();
  }
}

async function expectOtherPileWatched({ app, installation }: TestInstallation): Promise<void> {
  const { piles } = pilesAnswerSchema.parse((await app.inject({ url: '/api/piles' })).json());
  expect(piles.map(({ id }) => id)).toContain(soilPile.id);
  const soil = pileDetailSchema.parse((await app.inject({ url: `/api/piles/${soilPile.id}` })).json());
  expect(soil.trouble).toBeUndefined();
  expect(soil.judgement).not.toBeNull();
  expect(soil.positions.core?.silent).toBe(false);
  expect((await installation.watch.get(soilPile.id)?.judged())?.assessment).not.toBeNull();
}

/** Caches, and values that are read when they are wanted. */
const notExamined = new Set(['watch', 'setting', 'told_link']);

describe('an installation with one damaged row', () => {
  // One kind of damage for each column here; every kind for every column is in the journal's contract.
  test('starts, watches every other pile and says what is wrong, whichever column of whichever table it is', async () => {
    const beside = besideSqlite(join(whole.dataDir, 'journal.db'));
    const columns = (await beside.columns()).filter(({ table }) => !table.startsWith('journal_migration'));
    const byColumn = new Map<string, Damage[]>();
    for (const damage of damagesOf(columns, true)) {
      if (notExamined.has(damage.table) || damage.column.startsWith('taken_')) continue; // let go of at each start
      const name = `${damage.table}.${damage.column}`;
      byColumn.set(name, [...(byColumn.get(name) ?? []), damage]);
    }
    expect(byColumn.size).toBeGreaterThan(80);
    for (const [index, damages] of [...byColumn.values()].entries()) {
      const damage = damages[index % damages.length] as Damage;
      await withDamage(damage, async (one) => {
        await expectOtherPileWatched(one);
        await one.installation.journal.examine(async () => true);
        const where = `${damage.what} in ${damage.table}.${damage.column}`;
        const answer = await one.app.inject({ url: '/api/health' });
        const { parts } = healthSchema.parse(answer.json());
        expect({ where, said: parts.journal.detail }).toEqual({
          where,
          said: expect.stringMatching(new RegExp(`cannot be read: .*${damage.table} `)),
        });
        expect(answer.statusCode).toBe(200);
      });
    }
  }, 600_000);

  test('of a batch that cannot be judged by shows that pile as not watched, with what its probe says', async () => {
    const damages: [column: string, value: string][] = [
      ['stage', `'wall'`],
      ['started_at_ms', `'rubbish'`],
      ['started_at_ms', '9000000000000'],
      ['ended_at_ms', `'rubbish'`],
    ];
    for (const [column, value] of damages) {
      await withDamage({ table: 'batch', column, type: 'text', what: 'absurd value', value }, async (one) => {
        await expectOtherPileWatched(one);
        const bran = await until(`${column} ${value} to be said`, async () => {
          const pile = pileDetailSchema.parse((await one.app.inject({ url: `/api/piles/${branPile.id}` })).json());
          return pile.trouble?.judged === false ? pile : undefined;
        });
        expect(bran.condition).toMatch(/^Nobody is watching this pile: /);
        expect(bran.positions.core?.temperatureC).toBe(43.5);
        expect(bran.alarms).toHaveLength(1); // what stood still stands
      });
    }
  }, 60_000);

  test('of a pile that can be judged without it says so beside the pile’s sentence', async () => {
    for (const [table, column] of [
      ['batch', 'recipe'],
      ['batch', 'limits'],
      ['entry', 'what'],
      ['alarm', 'machine'],
    ] as const) {
      await withDamage({ table, column, type: 'text', what: 'no JSON', value: `'{"cut'` }, async (one) => {
        const bran = pileDetailSchema.parse((await one.app.inject({ url: `/api/piles/${branPile.id}` })).json());
        expect({ table, column, trouble: bran.trouble }).toMatchObject({
          trouble: { code: table === 'batch' ? 'batch-unreadable' : 'records-unreadable', judged: true },
        });
        expect(bran.judgement).not.toBeNull();
        expect(bran.condition).not.toMatch(/Nobody is watching/);
      });
    }
  }, 60_000);

  test('in a cache of the judge judges the pile anew from its readings', async () => {
    for (const [column, value] of [
      ['state', `'{"cut'`],
      ['state', `'{"judge":{"version":5},"waiting":[]}'`],
      ['state', `x'00ff'`],
      ['through_ms', `'rubbish'`],
      ['through_ms', '9000000000000000'],
    ] as const) {
      await withDamage({ table: 'watch', column, type: 'text', what: 'absurd value', value }, async (one) => {
        const bran = pileDetailSchema.parse((await one.app.inject({ url: `/api/piles/${branPile.id}` })).json());
        expect(bran.trouble).toBeUndefined();
        expect(bran.judgement).not.toBeNull();
        expect(bran.batch?.progress).toBeGreaterThan(0);
      });
    }
  }, 60_000);

  test('of a setting goes on without it', async () => {
    for (const value of [`'{"cut'`, `'[{"a":[]}]'`, `x'00ff'`]) {
      const damage = { table: 'setting', column: 'value', type: 'text', what: 'no JSON', value } as const;
      await withDamage(damage, async (one) => {
        await expectOtherPileWatched(one);
        expect(await one.installation.delivery.settings.allowed()).toEqual([]);
      });
    }
  }, 60_000);
});
