/**
 * What every journal must do with a row that is damaged, whichever database is behind it.
 */
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Journal } from '../../../shared/store/journal.ts';
import { UnreadableRowError } from '../../../shared/store/unreadable.ts';
import { type Column, type Damage, damagesOf, digestOf, fillEveryTable, keyNames, secrets } from './damage.ts';
import { beginMs, branBatch, branPile, hourMs, soilBatch, tooWarm, turned, yard } from './journal-sample.ts';

/** Reaches the same database as somebody else would. */
export interface Beside {
  /** Columns of every table that has rows. */
  columns(): Promise<Column[]>;
  /** In the order of their keys. */
  rows(table: string): Promise<Record<string, unknown>[]>;
  /** Sets a column of the row with these keys, to SQL or to a value. */
  set(damage: Column, keys: Record<string, unknown>, to: { sql: string } | { value: unknown }): Promise<void>;
  /** SQLite keeps any value in any column. */
  readonly anyType: boolean;
}

export interface DamageTests {
  open(): Promise<{ journal: Journal; beside: Beside; close(): Promise<void> }>;
}

/** Caches, of which a damaged one is made anew, and what is read beside the row schemas. */
const notRead = new Set(['watch', 'setting', 'pile_view', 'journal_migration', 'journal_migration_lock']);

export const keysOf = (table: string, row: Record<string, unknown>): Record<string, unknown> =>
  Object.fromEntries(keyNames(table).map((column) => [column, row[column]]));

export function damageContract(name: string, { open }: DamageTests): void {
  describe(name, () => {
    let opened: Awaited<ReturnType<DamageTests['open']>>;
    beforeAll(async () => {
      opened = await open();
      await fillEveryTable(opened.journal);
    });
    afterAll(() => opened.close());

    const through = () => opened.journal.examine(async () => true);
    async function damaged(damage: Damage, run: () => Promise<void>): Promise<void> {
      const [row = {}] = await opened.beside.rows(damage.table);
      const { [damage.column]: _, ...keys } = keysOf(damage.table, row);
      await opened.beside.set(damage, keys, { sql: damage.value });
      try {
        await run();
      } finally {
        await opened.beside.set(damage, keys, { value: row[damage.column] });
      }
    }

    test('every column that is read, damaged in turn, is named as unreadable; mended, it no longer is', async () => {
      const { journal, beside } = opened;
      await through();
      expect(journal.unreadable.list()).toEqual([]);
      const columns = (await beside.columns()).filter(({ table }) => !notRead.has(table));
      const damages = damagesOf(columns, beside.anyType);
      expect(new Set(damages.map(({ table }) => table)).size).toBeGreaterThanOrEqual(30);
      for (const damage of damages) {
        await damaged(damage, async () => {
          await through();
          const where = `${damage.what} in ${damage.table}.${damage.column}`;
          expect({ where, met: journal.unreadable.list().map(({ table }) => table) }).toEqual({
            where,
            met: [damage.table],
          });
          expect(journal.unreadable.list()[0]?.column).toBe(damage.column);
        });
      }
      await through();
      expect(journal.unreadable.list()).toEqual([]);
    });

    const json = (table: string, column: string): Damage => ({
      table,
      column,
      type: 'text',
      what: 'no JSON',
      value: `'{"cut'`,
    });

    test('lists leave a damaged row out and give the others; asked for by itself, it is an error that names it', async () => {
      const { journal } = opened;
      await damaged({ ...json('batch', 'stage'), value: `'wall'` }, async () => {
        expect((await journal.batches.list()).map(({ id }) => id)).toEqual([soilBatch.id]);
        const error = await journal.batches.open(branPile.id).catch((reason: unknown) => reason);
        expect(error).toBeInstanceOf(UnreadableRowError);
        expect(String(error)).toContain(`batch "${branBatch.id}" as its column stage`);
      });
      await damaged(json('entry', 'what'), async () => {
        const read = await journal.entries.list({ pileId: branPile.id, limit: 10 });
        expect(read.map(({ id }) => id)).not.toContain(turned.id);
        expect(read).toHaveLength(2);
      });
    });

    test('a page of entries is as long as asked for while there are more, whatever cannot be read among them', async () => {
      const { journal } = opened;
      await damaged(json('entry', 'what'), async () => {
        expect(await journal.entries.list({ pileId: branPile.id, limit: 2 })).toHaveLength(2);
      });
    });

    test('a damaged recipe is as none, damaged limits are the usual ones, and an alarm keeps its state', async () => {
      const { journal } = opened;
      await damaged(json('batch', 'recipe'), async () => {
        expect(await journal.batches.open(branPile.id)).toEqual({ ...branBatch, recipe: {} });
      });
      await damaged(json('batch', 'limits'), async () => {
        expect(await journal.batches.open(branPile.id)).toEqual({ ...branBatch, limits: {} });
      });
      await damaged(json('alarm', 'machine'), async () => {
        const [alarm] = await journal.alarms.open();
        expect(alarm).toEqual(tooWarm); // it follows from the other columns
      });
    });

    test('before a damaged alarm is written anew, what stood there is kept aside', async () => {
      const { journal } = opened;
      await damaged(json('alarm', 'words'), async () => {
        const [alarm] = await journal.alarms.open();
        if (!alarm) throw new Error('no alarm');
        await journal.watch.keep({ alarms: [alarm], steps: [], watch: null });
        expect(await journal.settings.get(`set-aside/alarm/${alarm.id}`)).toContain('{\\"cut');
        expect((await journal.alarms.open())[0]?.words).toEqual(alarm.words);
      });
    });

    /** Runs once for each kind of damage to each column of the table. */
    async function eachDamageOf(tables: readonly string[], run: (where: string) => Promise<void>): Promise<void> {
      const columns = (await opened.beside.columns()).filter(({ table }) => tables.includes(table));
      const damages = damagesOf(columns, opened.beside.anyType);
      expect(damages.length).toBeGreaterThan(0);
      for (const damage of damages) {
        await damaged(damage, () => run(`${damage.what} in ${damage.table}.${damage.column}`));
      }
    }
    const nowMs = beginMs + 40 * hourMs;

    test('nobody is signed in by a damaged session, or by a whole one of a person whose row is damaged', async () => {
      const { sessions } = opened.journal;
      const digest = digestOf(secrets.session);
      expect((await sessions.find(digest))?.person.id).toBe('ada');
      await eachDamageOf(['session', 'person'], async (where) => {
        expect({ where, found: await sessions.find(digest) }).toEqual({ where, found: undefined });
      });
      await eachDamageOf(['session'], async (where) => {
        expect({ where, listed: await sessions.list() }).toEqual({ where, listed: [] });
      });
    });

    test('a damaged token opens nothing, nor does a whole one of a person whose row is damaged', async () => {
      const { tokens } = opened.journal;
      const digest = digestOf(secrets.token);
      expect((await tokens.find(digest))?.person.id).toBe('ada');
      await eachDamageOf(['api_token', 'person'], async (where) => {
        expect({ where, found: await tokens.find(digest) }).toEqual({ where, found: undefined });
      });
    });

    test('a damaged link, or one whose maker is damaged, lets nobody in and stays as it is', async () => {
      const { links, people } = opened.journal;
      const digest = digestOf(secrets.link);
      const eve = {
        id: 'eve',
        name: 'Eve',
        nameKey: 'eve',
        role: 'owner',
        passwordHash: '',
        createdAtMs: nowMs,
        language: null,
      } as const;
      await eachDamageOf(['link', 'person'], async (where) => {
        expect({ where, found: await links.find(digest, nowMs) }).toEqual({ where, found: undefined });
      });
      await eachDamageOf(['link'], async (where) => {
        expect({ where, joined: await people.join(eve, digest, nowMs) }).toEqual({ where, joined: false });
      });
      expect((await links.find(digest, nowMs))?.id).toBe('link-1');
    });

    test('where the only owner is damaged there still is one: nobody becomes the first', async () => {
      const { people, links } = opened.journal;
      const joining = {
        id: 'eve',
        name: 'Eve',
        nameKey: 'eve',
        passwordHash: '',
        createdAtMs: nowMs,
        language: null,
      } as const;
      const link = {
        personId: null,
        madeBy: 'the start',
        role: 'owner',
        madeAtMs: nowMs,
        endsAtMs: nowMs + 1,
      } as const;
      const made = { ...link, id: 'first', digest: 'first', kind: 'setup', madeById: null } as const;
      const here = { ...link, id: 'here', digest: 'here', kind: 'invitation', madeById: 'here' } as const;
      await links.add(here);
      expect([await people.hasOwner(), await people.ownersUnreadable()]).toEqual([true, false]);
      await eachDamageOf(['person'], async (where) => {
        await links.add(made);
        const said = [await people.hasOwner(), await people.ownersUnreadable(), await people.list()];
        expect({ where, said }).toEqual({ where, said: [true, true, []] });
        const joined = await people.join({ ...joining, role: 'owner' }, made.digest, nowMs);
        expect({ where, joined, here: await links.find('here', nowMs) }).toEqual({
          where,
          joined: false,
          here: undefined,
        });
      });
      await links.remove('here');
    });

    test('a damaged count of attempts holds nobody back for ever, and counts on from one', async () => {
      const { attempts } = opened.journal;
      const take = (delay: number) => attempts.take([{ key: 'somebody', delayMs: () => delay }], nowMs, hourMs);
      const seen: number[] = [];
      await eachDamageOf(['attempt'], async (where) => {
        const count = { key: 'somebody', delayMs: (failures: number) => seen.push(failures) * 0 + 7_000 };
        expect({ where, waitMs: await attempts.take([count], nowMs, hourMs) }).toEqual({ where, waitMs: 0 });
        expect({ where, waitMs: await take(0) }).toEqual({ where, waitMs: 7_000 });
        await attempts.succeeded(['somebody'], []);
        await take(0);
      });
      expect(new Set(seen)).toEqual(new Set([1]));
    });

    test('a site whose lease is damaged is nobody’s, and can be taken at once by whoever lives', async () => {
      const { leases } = opened.journal;
      for (const damage of damagesOf(await opened.beside.columns(), opened.beside.anyType)) {
        if (damage.table !== 'lease' || damage.column === 'heard') continue;
        for (const worker of ['worker-1', 'worker-2']) await leases.leave(worker);
        const held = await leases.take(yard.id, 'worker-1', hourMs);
        expect(held?.holder).toBe('worker-1');
        const [row = {}] = await opened.beside.rows('lease');
        await opened.beside.set(damage, keysOf('lease', row), { sql: damage.value });
        expect((await leases.table()).leases).toEqual([]);
        await leases.know([yard.id]);
        const next = await leases.take(yard.id, 'worker-2', 0);
        expect({ damage, holder: next?.holder }).toEqual({ damage, holder: 'worker-2' });
        expect(next?.fence).toBeGreaterThan(held?.fence ?? 0);
      }
    });

    test('a worker whose row is damaged is not taken to be alive', async () => {
      const { leases } = opened.journal;
      await leases.beat('worker-1', hourMs, { sites: 1 });
      expect((await leases.table()).workers).toEqual([{ id: 'worker-1', siteCount: 1 }]);
      await damaged(
        { table: 'worker', column: 'until_ms', type: 'bigint', what: 'absurd value', value: '9000000000000000000' },
        async () => {
          expect((await leases.table()).workers).toEqual([]);
        },
      );
      await leases.beat('worker-1', 0, {});
    });

    test('a view whose summary is damaged is listed without it, and what was asked of a pile is handed on to be refused', async () => {
      const { views, commands } = opened.journal;
      expect((await views.list())[0]?.summary?.id).toBe(branPile.id);
      await eachDamageOf(['pile_view'], async (where) => {
        const [view] = await views.list();
        expect({ where, pileId: view?.pileId }).toEqual({ where, pileId: branPile.id });
        expect(await views.judged(branPile.id)).toEqual({ assessment: null, band: null });
      });
      await damaged(json('pile_view', 'summary'), async () => expect((await views.list())[0]?.summary).toBeNull());
      await damaged(json('pile_command', 'command'), async () => {
        expect(await commands.waiting([yard.id])).toMatchObject([{ id: 'command-1', command: null }]);
      });
    });

    test('a line of the audit trail whose details are damaged stays in it, and says so', async () => {
      const { audit } = opened.journal;
      const [line] = await audit.list({ limit: 1 });
      expect(line).toMatchObject({ id: 'audit-1', before: null, after: { name: 'Bran bay' } });
      await damaged(json('audit', 'after'), async () => {
        expect(await audit.list({ limit: 1 })).toEqual([{ ...line, after: { unreadable: true } }]);
      });
    });

    test('a damaged address is not taken as confirmed, and nothing is acknowledged by a damaged link', async () => {
      const { mailAddresses, links } = opened.journal.notifications;
      await mailAddresses.confirm('ada', 'ada@saltmere.example', beginMs);
      await damaged(
        { table: 'mail_address', column: 'standing', type: 'text', what: 'absurd value', value: `'conf'` },
        async () => {
          expect(await mailAddresses.list('ada')).toEqual([]);
        },
      );
      const digest = digestOf('behind a press on the message');
      expect((await links.get(digest))?.personId).toBe('ada');
      await eachDamageOf(['notification_link'], async (where) => {
        expect({ where, found: await links.get(digest) }).toEqual({ where, found: undefined });
      });
    });

    test('a place of the watcher that was touched is as none', async () => {
      const { journal, beside } = opened;
      const [row = {}] = await beside.rows('watch');
      const keys = keysOf('watch', row);
      const column = (name: string, type: string) => ({ table: 'watch', column: name, type });
      expect(await journal.watch.get(branPile.id)).toMatchObject({ state: {} });
      for (const value of ['{"cut', '{"judge":{"version":5}}', `${String(row.state)} `]) {
        await beside.set(column('state', 'text'), keys, { value });
        expect(await journal.watch.get(branPile.id)).toBeUndefined();
      }
      await beside.set(column('state', 'text'), keys, { value: row.state });
      await beside.set(column('through_ms', 'bigint'), keys, { value: Number(row.through_ms) + 1 });
      expect(await journal.watch.get(branPile.id)).toBeUndefined();
    });
  });
}
