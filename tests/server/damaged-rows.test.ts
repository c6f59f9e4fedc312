// An installation in which every kind of row of the journal is damaged in turn, one at a time: it starts, watches the other
// pile, and says what is wrong.
import { cp } from 'node:fs/promises';
import { join } from 'node:path';
import { Client } from 'pg';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { hashPassword } from '../../server/services/people/passwords.ts';
import { healthSchema } from '../../shared/contracts/health.ts';
import { pileDetailSchema, pilesAnswerSchema } from '../../shared/contracts/piles.ts';
import { openPostgresJournal } from '../../shared/store/journal/postgres-journal.ts';
import { openSqliteJournal } from '../../shared/store/journal/sqlite-journal.ts';
import type { Journal } from '../../shared/store/journal.ts';
import { openSqliteReadings } from '../../shared/store/readings/sqlite-readings.ts';
import { makeDataDir, openTestInstallation, type TestInstallation } from '../helpers/open-test-server.ts';
import { fromOwnPage, passwordOf } from '../helpers/people.ts';
import { hasPostgres, type Postgres, startPostgres } from '../helpers/postgres.ts';
import { until } from '../helpers/until.ts';
import { besidePostgres } from '../shared/store/beside-postgres.ts';
import { besideSqlite } from '../shared/store/beside-sqlite.ts';
import { type Damage, damagesOf, fillEveryTable, keyNames, secrets } from '../shared/store/damage.ts';
import { type Beside, keysOf } from '../shared/store/journal-damage-contract.ts';
import { beginMs, branPile, hourMs, soilPile, terrace, yard } from '../shared/store/journal-sample.ts';

/** Ada may be the row that is damaged: who asks is the token of the environment. */
const environment = { API_TOKEN: 'the token of the environment' };
const headers = { authorization: `Bearer ${environment.API_TOKEN}` };

const clock = { nowMs: () => beginMs + 40 * hourMs, speed: 1 };
async function fill(journal: Journal): Promise<void> {
  await fillEveryTable(journal);
  await journal.people.renewHash('ada', await hashPassword(passwordOf('Ada')));
}

let whole: Awaited<ReturnType<typeof makeDataDir>>;

beforeAll(async () => {
  whole = await makeDataDir();
  const journal = await openSqliteJournal(join(whole.dataDir, 'journal.db'));
  await fill(journal);
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
  await damageIn(besideSqlite(join(dataDir, 'journal.db')), damage);
  const one = await openTestInstallation(dataDir, environment, clock, {}, clock.nowMs);
  try {
    await run(one);
  } finally {
    await one.close();
    await remove();
  }
}

/** @returns how to mend it. */
async function damageIn(beside: Beside, damage: Damage): Promise<() => Promise<void>> {
  const row = (await beside.rows(damage.table)).find(
    (one) => !/"(soil-bay|saltmere-terrace)/.test(JSON.stringify(one)),
  );
  const { [damage.column]: _, ...keys } = keysOf(damage.table, row ?? {});
  await beside.set(damage, keys, { sql: damage.value });
  return () => beside.set(damage, keys, { value: row?.[damage.column] });
}

async function expectOtherPileWatched({ app, installation }: TestInstallation): Promise<void> {
  const { piles } = pilesAnswerSchema.parse((await app.inject({ url: '/api/piles', headers })).json());
  expect(piles.map(({ id }) => id)).toContain(soilPile.id);
  const soil = pileDetailSchema.parse((await app.inject({ url: `/api/piles/${soilPile.id}`, headers })).json());
  expect(soil.trouble).toBeUndefined();
  expect(soil.judgement).not.toBeNull();
  expect(soil.positions.core?.silent).toBe(false);
  expect((await installation.watch.get(soilPile.id)?.judged())?.assessment).not.toBeNull();
}

/** Caches, and values that are read when they are wanted. */
const notExamined = new Set(['watch', 'setting', 'pile_view']);

const byColumn = (damages: readonly Damage[]): Damage[][] => {
  const found = new Map<string, Damage[]>();
  for (const damage of damages) {
    if (notExamined.has(damage.table) || damage.table.startsWith('journal_migration')) continue;
    if (damage.column.startsWith('taken_')) continue; // let go of at each start
    const name = `${damage.table}.${damage.column}`;
    found.set(name, [...(found.get(name) ?? []), damage]);
  }
  return [...found.values()];
};

/** Counted for whoever asks, and told to owners. */
async function expectSaid(one: TestInstallation, { what, table, column }: Damage): Promise<void> {
  await one.installation.journal.examine(async () => true);
  const where = `${what} in ${table}.${column}`;
  const answer = await one.app.inject({ url: '/api/health' });
  const { parts } = healthSchema.parse(answer.json());
  expect({ where, said: parts.journal.detail }).toEqual({
    where,
    said: expect.stringMatching(new RegExp(`cannot be read: .*${table} `)),
  });
  expect(answer.statusCode).toBe(200);
}

describe('an installation with one damaged row', () => {
  // One kind of damage for each column here; every kind for every column is in the journal's contract.
  test('starts, watches every other pile and says what is wrong, whichever column of whichever table it is', async () => {
    const beside = besideSqlite(join(whole.dataDir, 'journal.db'));
    const columns = (await beside.columns()).filter(({ table }) => !table.startsWith('journal_migration'));
    const all = byColumn(damagesOf(columns, true));
    expect(all.length).toBeGreaterThan(150);
    for (const [index, damages] of all.entries()) {
      const damage = damages[index % damages.length] as Damage;
      await withDamage(damage, async (one) => {
        await expectOtherPileWatched(one);
        await expectSaid(one, damage);
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
          const pile = pileDetailSchema.parse(
            (await one.app.inject({ url: `/api/piles/${branPile.id}`, headers })).json(),
          );
          return pile.trouble?.judged === false ? pile : undefined;
        });
        expect(bran.condition).toMatch(/^Nobody is watching this pile: /);
        expect(bran.positions.core?.temperatureC).toBe(43.5);
        expect(bran.alarms).toHaveLength(1); // what stood still stands
      });
    }
  });

  test('of a pile that can be judged without it says so beside the pile’s sentence', async () => {
    for (const [table, column] of [
      ['batch', 'recipe'],
      ['batch', 'limits'],
      ['entry', 'what'],
      ['alarm', 'machine'],
    ] as const) {
      await withDamage({ table, column, type: 'text', what: 'no JSON', value: `'{"cut'` }, async (one) => {
        const bran = pileDetailSchema.parse(
          (await one.app.inject({ url: `/api/piles/${branPile.id}`, headers })).json(),
        );
        expect({ table, column, trouble: bran.trouble }).toMatchObject({
          trouble: { code: table === 'batch' ? 'batch-unreadable' : 'records-unreadable', judged: true },
        });
        expect(bran.judgement).not.toBeNull();
        expect(bran.condition).not.toMatch(/Nobody is watching/);
      });
    }
  });

  test('in a cache of the judge judges the pile anew from its readings', async () => {
    for (const [column, value] of [
      ['state', `'{"cut'`],
      ['state', `'{"judge":{"version":5},"waiting":[]}'`],
      ['state', `x'00ff'`],
      ['through_ms', `'rubbish'`],
      ['through_ms', '9000000000000000'],
    ] as const) {
      await withDamage({ table: 'watch', column, type: 'text', what: 'absurd value', value }, async (one) => {
        const bran = pileDetailSchema.parse(
          (await one.app.inject({ url: `/api/piles/${branPile.id}`, headers })).json(),
        );
        expect(bran.trouble).toBeUndefined();
        expect(bran.judgement).not.toBeNull();
        expect(bran.batch?.progress).toBeGreaterThan(0);
      });
    }
  });

  test('of a setting goes on without it', async () => {
    for (const value of [`'{"cut'`, `'[{"a":[]}]'`, `x'00ff'`]) {
      const damage = { table: 'setting', column: 'value', type: 'text', what: 'no JSON', value } as const;
      await withDamage(damage, async (one) => {
        await expectOtherPileWatched(one);
        expect(await one.installation.delivery.settings.allowed()).toEqual([]);
      });
    }
  });

  test('of a person, a session or a token lets nobody in by it, and this machine does not act as owner', async () => {
    const beside = besideSqlite(join(whole.dataDir, 'journal.db'));
    const damages = damagesOf(await beside.columns(), true);
    const password = { name: 'Ada', password: passwordOf('Ada') };
    const ways = {
      session: { cookie: `branhearth_session=${secrets.session}` },
      token: { authorization: `Bearer ${secrets.token}` },
      nothing: {},
    };
    const expected: Record<string, Record<string, number>> = {
      setting: { session: 200, token: 200, nothing: 401, password: 200 },
      person: { session: 401, token: 401, nothing: 401, password: 401 },
      session: { session: 401, token: 200, nothing: 401, password: 200 },
      api_token: { session: 200, token: 401, nothing: 401, password: 200 },
    };
    const none: Damage = { table: 'setting', column: 'value', type: 'text', what: 'absurd value', value: `'[]'` };
    const noArgon: Damage = {
      table: 'person',
      column: 'password_hash',
      type: 'text',
      what: 'absurd value',
      value: `'no hash'`,
    };
    for (const damage of [none, ...damages]) {
      const codes = expected[damage.table];
      if (!codes) continue;
      await withDamage(damage, async ({ app, installation }) => {
        const got: Record<string, number> = {};
        for (const [way, from] of Object.entries(ways))
          got[way] = (await app.inject({ url: '/api/people', headers: from })).statusCode;
        got.password = (
          await app.inject({ method: 'POST', url: '/api/session', payload: password, headers: fromOwnPage })
        ).statusCode;
        const where = `${damage.what} in ${damage.table}.${damage.column}`;
        expect({ where, got }).toEqual({ where, got: codes });
        expect(await installation.people.links.setup()).toBeUndefined();
      });
    }
    await withDamage(noArgon, async ({ app }) => {
      const answer = await app.inject({ method: 'POST', url: '/api/session', payload: password, headers: fromOwnPage });
      expect(answer.statusCode).toBe(401);
    });
  });

  test('of a link of an invitation lets nobody in by it', async () => {
    const beside = besideSqlite(join(whole.dataDir, 'journal.db'));
    const damages = damagesOf(await beside.columns(), true).filter(({ table }) => table === 'link');
    const eve = { secret: secrets.link, name: 'Eve', password: passwordOf('Eve') };
    for (const damage of damages) {
      await withDamage(damage, async ({ app, installation }) => {
        const used = await app.inject({ method: 'POST', url: '/api/links/use', payload: eve, headers: fromOwnPage });
        const where = `${damage.what} in ${damage.table}.${damage.column}`;
        expect({ where, status: used.statusCode }).toEqual({ where, status: 410 });
        expect(await installation.journal.people.list()).toHaveLength(1);
      });
    }
  });

  test('about the only owner can be mended by the token of the environment, which invites another', async () => {
    await withDamage(
      { table: 'person', column: 'role', type: 'text', what: 'absurd value', value: `'ownar'` },
      async ({ app }) => {
        const asToken = { ...headers, ...fromOwnPage };
        const invited = await app.inject({
          method: 'POST',
          url: '/api/invitations',
          headers: asToken,
          payload: { role: 'owner' },
        });
        const secret = invited.json<{ address: string }>().address.split('#')[1];
        const payload = { secret, name: 'Eve', password: passwordOf('Eve') };
        const joined = await app.inject({ method: 'POST', url: '/api/links/use', payload, headers: fromOwnPage });
        expect(joined.json()).toMatchObject({ person: { name: 'Eve', role: 'owner' } });
      },
    );
  });

  test('of a person who helps is shown to an owner, who removes them and can ask them in again', async () => {
    const damage = { table: 'person', column: 'role', type: 'text', what: 'absurd value', value: `'halper'` } as const;
    await withDamage(damage, async ({ app }) => {
      const asToken = { ...headers, ...fromOwnPage };
      const listed = async () =>
        (await app.inject({ url: '/api/people', headers })).json<{ people: unknown[]; damaged: { id: string }[] }>();
      const { people, damaged } = await listed();
      expect(people).toEqual([]);
      expect(damaged).toMatchObject([{ name: 'Ada' }]);
      const url = `/api/people/${damaged[0]?.id}`;
      expect((await app.inject({ method: 'DELETE', url, headers: asToken })).statusCode).toBe(204);
      expect(await listed()).toEqual({ people: [], damaged: [] });
      expect((await app.inject({ method: 'DELETE', url, headers: asToken })).statusCode).toBe(404);
    });
  });
});

/** Which columns of other tables refer to which column of this one. */
async function referencesTo(client: Client, table: string) {
  const { rows } = await client.query<{ from: string; column: string; to: string }>(
    `SELECT c.conrelid::regclass::text AS "from", a.attname AS "column", b.attname AS "to" FROM pg_constraint c
     JOIN pg_attribute a ON a.attrelid = c.conrelid AND a.attnum = c.conkey[1]
     JOIN pg_attribute b ON b.attrelid = c.confrelid AND b.attnum = c.confkey[1]
     WHERE c.contype = 'f' AND c.confrelid = $1::regclass`,
    [table],
  );
  return rows;
}

/** What the installation wrote in the place of the damaged row, as an alarm raised anew, would stand in its way when it is mended. */
async function removeNew(client: Client, table: string, before: readonly Record<string, unknown>[]): Promise<void> {
  const references = await referencesTo(client, table);
  const names = keyNames(table);
  const keyOf = (row: Record<string, unknown>) => JSON.stringify(names.map((name) => row[name]));
  const known = new Set(before.map(keyOf));
  const where = names.map((name, index) => `"${name}" = $${index + 1}`).join(' AND ');
  for (const row of await besidePostgres(client).rows(table)) {
    if (known.has(keyOf(row))) continue;
    for (const { from, column, to } of references) {
      await client.query(`DELETE FROM "${from}" WHERE "${column}" = $1`, [row[to]]);
    }
    await client.query(
      `DELETE FROM "${table}" WHERE ${where}`,
      names.map((name) => row[name]),
    );
  }
}

describe.skipIf(!hasPostgres)('an installation on PostgreSQL with one damaged row', () => {
  let postgres: Postgres;
  let client: Client;
  beforeAll(async () => {
    postgres = await startPostgres({ fsync: 'off' });
  });
  afterAll(async () => {
    await client?.end();
    await postgres?.remove();
  });

  /** Read and mended by the start itself: whose they are is agreed on anew. */
  const mended = new Set(['lease', 'worker']);

  // One column of each table here; what a database does with each is in the journal's contract.
  test('starts, watches every other pile and says what is wrong, whichever table it is', async () => {
    const url = await postgres.journalDatabase();
    const journal = await openPostgresJournal(url);
    await fill(journal);
    await journal.close();
    client = new Client({ connectionString: url });
    await client.connect();
    const beside = besidePostgres(client);
    const byTable = new Map<string, Damage[]>();
    for (const damage of byColumn(damagesOf(await beside.columns(), false)).flat()) {
      byTable.set(damage.table, [...(byTable.get(damage.table) ?? []), damage]);
    }
    expect(byTable.size).toBeGreaterThan(25);
    for (const [index, damages] of [...byTable.values()].entries()) {
      const damage = damages[index % damages.length] as Damage;
      const { dataDir, remove } = await makeDataDir();
      await cp(join(whole.dataDir, 'readings.db'), join(dataDir, 'readings.db'));
      const before = await beside.rows(damage.table);
      const mend = await damageIn(beside, damage);
      const one = await openTestInstallation(dataDir, { ...environment, JOURNAL_URL: url }, clock, {}, clock.nowMs);
      try {
        await expectOtherPileWatched(one);
        if (!mended.has(damage.table)) await expectSaid(one, damage);
      } finally {
        await one.close();
        await remove();
        await removeNew(client, damage.table, before);
        await mend();
      }
    }
  }, 300_000);
});
