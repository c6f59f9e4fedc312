/** The part of the journal's contract about people, sessions, links, tokens, attempts and the audit trail. */

import { describe, expect, test } from 'vitest';
import { StoreError } from '../../../shared/errors.ts';
import { message, verbatim } from '../../../shared/messages/message.ts';
import type { Journal } from '../../../shared/store/journal.ts';
import type { AuditRecord, LinkRecord, PersonRecord, SessionRecord } from '../../../shared/store/people-journal.ts';
import { beginMs, hourMs } from './journal-sample.ts';

export interface PeopleTests {
  withEmpty(run: (journal: Journal) => Promise<void>): Promise<void>;
  conflict(attempt: Promise<unknown>, pointer: string): Promise<void>;
}

const person = (name: string, role: PersonRecord['role']): PersonRecord => ({
  id: `id-${name.toLowerCase()}`,
  name,
  nameKey: name.toLowerCase(),
  role,
  passwordHash: `hash of ${name}`,
  createdAtMs: beginMs,
  language: null,
});
const ada = person('Ada', 'owner');
const ben = person('Ben', 'keeper');

const link = (digest: string, more: Partial<LinkRecord> = {}): LinkRecord => ({
  id: `link-${digest}`,
  digest,
  kind: 'invitation',
  role: 'keeper',
  personId: null,
  madeBy: 'Ada',
  madeById: null,
  madeAtMs: beginMs,
  endsAtMs: beginMs + hourMs,
  ...more,
});
const session = (digest: string, personId: string, more: Partial<SessionRecord> = {}): SessionRecord => ({
  id: `session-${digest}`,
  digest,
  personId,
  madeAtMs: beginMs,
  seenAtMs: beginMs,
  endsAtMs: beginMs + 24 * hourMs,
  address: '192.0.2.7',
  agent: 'a browser',
  ...more,
});

async function joined(journal: Journal, one: PersonRecord): Promise<void> {
  const digest = `for-${one.id}`;
  await journal.links.add(link(digest, { role: one.role }));
  expect(await journal.people.join(one, digest, beginMs)).toBe(true);
}

export function peopleContract({ withEmpty, conflict }: PeopleTests): void {
  const withTwo = (run: (journal: Journal) => Promise<void>) =>
    withEmpty(async (journal) => {
      await joined(journal, ada);
      await joined(journal, ben);
      await run(journal);
    });

  const token = (digest: string, personId: string) =>
    ({
      id: `token-${digest}`,
      digest,
      personId,
      name: 'weather script',
      scope: 'read',
      madeAtMs: beginMs,
      usedAtMs: null,
      endsAtMs: null,
    }) as const;

  describe('people', () => {
    test('join by a link once, and are found by name and id', () =>
      withEmpty(async (journal) => {
        expect(await journal.people.hasOwner()).toBe(false);
        await journal.links.add(link('once', { kind: 'setup', role: 'owner' }));
        expect(await journal.people.join(ada, 'once', beginMs)).toBe(true);
        expect(await journal.people.join(ben, 'once', beginMs)).toBe(false);
        expect(await journal.people.join(ben, 'never-made', beginMs)).toBe(false);
        expect(await journal.people.hasOwner()).toBe(true);
        expect(await journal.people.list()).toEqual([ada]);
        expect([await journal.people.get(ada.id), await journal.people.byNameKey('ada')]).toEqual([ada, ada]);
        expect([await journal.people.get('x'), await journal.people.byNameKey('x')]).toEqual([undefined, undefined]);
      }));

    test('join until the link runs out, and not then', () =>
      withEmpty(async (journal) => {
        const { endsAtMs } = link('late');
        await journal.links.add(link('late'));
        await journal.links.add(link('in-time'));
        expect(await journal.people.join(ben, 'late', endsAtMs)).toBe(false);
        expect(await journal.people.join(ben, 'in-time', endsAtMs - 1)).toBe(true);
      }));

    test('one of two who join at once by one link is told no', () =>
      withEmpty(async (journal) => {
        await journal.links.add(link('one'));
        const both = await Promise.all([ada, ben].map((one) => journal.people.join(one, 'one', beginMs)));
        expect(both.sort()).toEqual([false, true]);
        expect(await journal.people.list()).toHaveLength(1);
      }));

    test('a setup link is worth nothing once there is an owner', () =>
      withEmpty(async (journal) => {
        await journal.links.add(link('first', { kind: 'setup', role: 'owner' }));
        await journal.links.add(link('second', { kind: 'setup', role: 'owner' }));
        expect(await journal.people.join(ada, 'first', beginMs)).toBe(true);
        expect(await journal.people.join(person('Eve', 'owner'), 'second', beginMs)).toBe(false);
        expect(await journal.links.open(beginMs)).toEqual([]);
      }));

    test('a taken name leaves the link as it was', () =>
      withTwo(async (journal) => {
        await journal.links.add(link('again'));
        await conflict(journal.people.join({ ...person('ADA', 'keeper'), id: 'other' }, 'again', beginMs), '/name');
        expect(await journal.people.join(person('Cy', 'keeper'), 'again', beginMs)).toBe(true);
      }));

    test('the last owner can be neither demoted nor removed; with a second one both can', () =>
      withTwo(async (journal) => {
        await conflict(journal.people.change(ada.id, { role: 'keeper' }), '/role');
        await conflict(journal.people.remove(ada.id, beginMs), '');
        await journal.people.change(ben.id, { role: 'owner' });
        await journal.people.change(ada.id, { role: 'viewer' });
        await conflict(journal.people.remove(ben.id, beginMs), '');
        await journal.people.remove(ada.id, beginMs);
        expect(await journal.people.list()).toEqual([{ ...ben, role: 'owner' }]);
      }));

    test('two owners who demote each other at once leave one', () =>
      withTwo(async (journal) => {
        await journal.people.change(ben.id, { role: 'owner' });
        const outcomes = await Promise.allSettled([
          journal.people.change(ada.id, { role: 'keeper' }),
          journal.people.change(ben.id, { role: 'keeper' }),
        ]);
        expect(outcomes.map(({ status }) => status).sort()).toEqual(['fulfilled', 'rejected']);
        expect(await journal.people.hasOwner()).toBe(true);
      }));

    test('a change of name must find the new one free; one’s own may be written otherwise', () =>
      withTwo(async (journal) => {
        await conflict(journal.people.change(ben.id, { name: 'Ada', nameKey: 'ada' }), '/name');
        await journal.people.change(ben.id, { name: 'BEN', nameKey: 'ben' });
        expect((await journal.people.get(ben.id))?.name).toBe('BEN');
      }));

    test('whoever was removed has no session, token or link left, and the name is free again', () =>
      withTwo(async (journal) => {
        await journal.sessions.add(session('s', ben.id));
        await journal.tokens.add({ ...token('t', ben.id) });
        await journal.links.add(link('r', { kind: 'reset', personId: ben.id }));
        await journal.people.remove(ben.id, beginMs);
        expect(await journal.sessions.find('s')).toBeUndefined();
        expect(await journal.tokens.find('t')).toBeUndefined();
        expect(await journal.links.find('r', beginMs)).toBeUndefined();
        expect(await journal.people.get(ben.id)).toBeUndefined();
        await joined(journal, { ...ben, id: 'another-ben' });
      }));

    test('a new password ends every session but the one named; a reset ends all, once', () =>
      withTwo(async (journal) => {
        for (const digest of ['here', 'there']) await journal.sessions.add(session(digest, ben.id));
        await journal.sessions.add(session('ada', ada.id));
        await journal.people.setPassword(ben.id, 'new', 'here');
        expect((await journal.sessions.list()).map(({ digest }) => digest).sort()).toEqual(['ada', 'here']);
        expect((await journal.people.get(ben.id))?.passwordHash).toBe('new');
        const reset = link('reset', { kind: 'reset', personId: ben.id });
        await journal.links.add(reset);
        expect(await journal.people.resetPassword(ada.id, 'newer', 'no-such', beginMs)).toBe(false);
        expect(await journal.people.resetPassword(ben.id, 'newer', 'reset', beginMs)).toBe(true);
        expect(await journal.people.resetPassword(ben.id, 'newest', 'reset', beginMs)).toBe(false);
        expect((await journal.sessions.list()).map(({ digest }) => digest)).toEqual(['ada']);
        expect((await journal.people.get(ben.id))?.passwordHash).toBe('newer');
      }));
  });

  test('a person reads the language they chose, until they leave it to their browser again', () =>
    withTwo(async (journal) => {
      await journal.people.change(ben.id, { language: 'de' });
      expect((await journal.people.list()).map(({ name, language }) => [name, language])).toEqual([
        ['Ada', null],
        ['Ben', 'de'],
      ]);
      await journal.people.change(ben.id, { language: null });
      expect(await journal.people.get(ben.id)).toEqual(ben);
    }));

  describe('what a person holds', () => {
    const device = (name: string, madeWith: string | null, personId = ben.id) => ({
      id: name,
      personId,
      endpoint: `https://push.example/${name}`,
      p256dh: 'key',
      auth: 'secret',
      label: name,
      addedAtMs: beginMs,
      lastOkAtMs: null,
      madeWith,
    });
    /** Two sessions, a token, links made and four devices of Ben, who is an owner here; the same of Ada. */
    const withHeld = (run: (journal: Journal, left: () => Promise<string[]>) => Promise<void>) =>
      withTwo(async (journal) => {
        await journal.people.change(ben.id, { role: 'owner' });
        for (const [who, at] of [
          [ben, 'b'],
          [ada, 'a'],
        ] as const) {
          for (const name of ['here', 'there']) await journal.sessions.add(session(`${at}-${name}`, who.id));
          await journal.tokens.add(token(`${at}-token`, who.id));
          await journal.links.add(link(`${at}-link`, { madeById: who.id }));
          const ids = [`session-${at}-here`, `session-${at}-there`, `token-${at}-token`, 'a session long over', null];
          for (const [count, id] of ids.entries())
            await journal.notifications.devices.keep(device(`${at}-${count}`, id, who.id));
        }
        const left = async () =>
          [
            ...(await journal.sessions.list()).map(({ digest }) => digest),
            ...(await journal.tokens.list()).map(({ digest }) => digest),
            ...(await journal.links.open(beginMs)).map(({ digest }) => digest),
            ...(await journal.notifications.devices.list()).map(({ id }) => id),
          ].sort();
        await run(journal, left);
      });
    const adas = ['a-0', 'a-1', 'a-2', 'a-3', 'a-4', 'a-here', 'a-link', 'a-there', 'a-token'];
    const bens = adas.map((name) => name.replace('a-', 'b-'));
    const all = [...adas, ...bens].sort();
    const without = (...gone: string[]) => all.filter((name) => !gone.includes(name));

    const rows: [what: string, ends: (journal: Journal) => Promise<unknown>, left: string[]][] = [
      [
        'signing out ends that session and its device',
        ({ sessions }) => sessions.end({ digest: 'b-here' }),
        without('b-here', 'b-0'),
      ],
      [
        'one session ended by its id, likewise',
        ({ sessions }) => sessions.end({ personId: ben.id, id: 'session-b-there' }),
        without('b-there', 'b-1'),
      ],
      [
        'somebody else’s session by its id: nothing',
        ({ sessions }) => sessions.end({ personId: ada.id, id: 'session-b-there' }),
        all,
      ],
      [
        'all sessions but one: its device and that of the token stay',
        ({ sessions }) => sessions.end({ personId: ben.id, exceptDigest: 'b-here' }),
        without('b-there', 'b-1', 'b-3', 'b-4'),
      ],
      [
        'all sessions: the device of the token stays',
        ({ sessions }) => sessions.end({ personId: ben.id }),
        without('b-here', 'b-there', 'b-0', 'b-1', 'b-3', 'b-4'),
      ],
      [
        'a token revoked ends its device',
        ({ tokens }) => tokens.remove('token-b-token', ben.id),
        without('b-token', 'b-2'),
      ],
      ['all tokens, likewise', ({ tokens }) => tokens.removeAll(ben.id), without('b-token', 'b-2')],
      [
        'a new password leaves the session named and its device',
        ({ people }) => people.setPassword(ben.id, 'new', 'b-here'),
        [...adas, 'b-0', 'b-here'],
      ],
      [
        'a new password that names a session of somebody else leaves nothing',
        ({ people }) => people.setPassword(ben.id, 'new', 'a-here'),
        adas,
      ],
      ['the same password hashed anew ends nothing', ({ people }) => people.renewHash(ben.id, 'new'), all],
      ['all that is held', ({ people }) => people.endHeld(ben.id), adas],
      ['removal', ({ people }) => people.remove(ben.id, beginMs), adas],
      [
        'a demotion ends sessions and links made; who is told stays told',
        ({ people }) => people.change(ben.id, { role: 'keeper' }),
        without('b-here', 'b-there', 'b-link'),
      ],
      [
        'what has run out by itself leaves devices',
        ({ sessions }) => sessions.cleanUp(beginMs + 24 * hourMs, beginMs),
        without('a-here', 'a-there', 'b-here', 'b-there', 'a-link', 'b-link'),
      ],
    ];
    for (const [what, ends, left] of rows) {
      test(what, () =>
        withHeld(async (journal, now) => {
          expect(await now()).toEqual(all);
          await ends(journal);
          expect(await now()).toEqual([...left].sort());
        }),
      );
    }

    test('a reset by a link ends all', () =>
      withHeld(async (journal, now) => {
        await journal.links.add(link('reset', { kind: 'reset', personId: ben.id, madeById: ada.id }));
        expect(await journal.people.resetPassword(ben.id, 'newer', 'reset', beginMs)).toBe(true);
        expect(await now()).toEqual(adas);
      }));

    test('a browser that signs in anew keeps its device for the same person and ends another’s', () =>
      withHeld(async (journal, now) => {
        await journal.sessions.add(session('b-new', ben.id), 'b-here');
        expect(await now()).toEqual(without('b-here').concat('b-new').sort());
        expect((await journal.notifications.devices.list(ben.id))[0]).toMatchObject({
          id: 'b-0',
          madeWith: 'session-b-new',
        });
        await journal.sessions.add(session('a-new', ada.id), 'b-new');
        expect(await now()).toEqual(without('b-here', 'b-0').concat('a-new').sort());
      }));
  });

  describe('a link whose maker', () => {
    const rows: [
      what: string,
      madeById: string | null,
      change: (journal: Journal) => Promise<unknown>,
      opens: boolean,
    ][] = [
      ['is an owner opens', ada.id, async () => {}, true],
      ['never was an owner opens nothing', ben.id, async () => {}, false],
      ['was demoted opens nothing', 'id-cy', ({ people }) => people.change('id-cy', { role: 'viewer' }), false],
      [
        'was demoted and raised again opens nothing: it ended then',
        'id-cy',
        async ({ people }) => {
          await people.change('id-cy', { role: 'viewer' });
          await people.change('id-cy', { role: 'owner' });
        },
        false,
      ],
      ['was removed opens nothing', 'id-cy', ({ people }) => people.remove('id-cy', beginMs), false],
      ['was this machine opens nothing once there is an owner', 'here', async () => {}, false],
      ['is the token of the environment opens, as far as the journal knows', 'api-token', async () => {}, true],
      ['is the program itself opens', null, async () => {}, true],
    ];
    for (const [what, madeById, change, opens] of rows) {
      for (const kind of ['invitation', 'reset'] as const) {
        test(`${what} (${kind})`, () =>
          withTwo(async (journal) => {
            await joined(journal, person('Cy', 'owner'));
            await journal.links.add(link('it', { kind, madeById, ...(kind === 'reset' && { personId: ben.id }) }));
            await change(journal);
            expect((await journal.links.find('it', beginMs)) !== undefined).toBe(opens);
            expect((await journal.links.open(beginMs)).map(({ digest }) => digest)).toEqual(opens ? ['it'] : []);
            const used =
              kind === 'invitation'
                ? journal.people.join(person('Dee', 'keeper'), 'it', beginMs)
                : journal.people.resetPassword(ben.id, 'newer', 'it', beginMs);
            expect(await used).toBe(opens);
          }));
      }
    }
  });

  describe('sessions', () => {
    test('are found with their person until they end, one by one or all but one', () =>
      withTwo(async (journal) => {
        const [first, second, third] = ['a', 'b', 'c'].map((digest, at) =>
          session(digest, ben.id, { madeAtMs: beginMs + at }),
        );
        for (const one of [first, second, third]) if (one) await journal.sessions.add(one);
        expect(await journal.sessions.find('b')).toEqual({ session: second, person: ben });
        expect((await journal.sessions.list(ben.id)).map(({ digest }) => digest)).toEqual(['c', 'b', 'a']);
        expect(await journal.sessions.list(ada.id)).toEqual([]);
        expect(await journal.sessions.end({ personId: ada.id, id: 'session-a' })).toBe(0);
        expect(await journal.sessions.end({ personId: ben.id, id: 'session-a' })).toBe(1);
        expect(await journal.sessions.end({ personId: ben.id, exceptDigest: 'c' })).toBe(1);
        expect(await journal.sessions.end({ digest: 'c' })).toBe(1);
        expect(await journal.sessions.find('c')).toBeUndefined();
      }));

    test('end with a change of role, and not with a change of name', () =>
      withTwo(async (journal) => {
        await journal.sessions.add(session('a', ben.id));
        await journal.people.change(ben.id, { name: 'Benno', nameKey: 'benno' });
        await journal.people.change(ben.id, { role: 'keeper' });
        expect((await journal.sessions.find('a'))?.person.name).toBe('Benno');
        await journal.people.change(ben.id, { role: 'viewer' });
        expect(await journal.sessions.find('a')).toBeUndefined();
      }));

    test('are seen forwards only, and cleaned up once over or long unseen', () =>
      withTwo(async (journal) => {
        await journal.sessions.add(session('over', ben.id, { endsAtMs: beginMs + 10 }));
        await journal.sessions.add(session('unseen', ben.id));
        await journal.sessions.add(session('kept', ben.id));
        await journal.sessions.seen('kept', beginMs + 5);
        await journal.sessions.seen('kept', beginMs + 1);
        expect((await journal.sessions.find('kept'))?.session.seenAtMs).toBe(beginMs + 5);
        await journal.sessions.cleanUp(beginMs + 10, beginMs + 5);
        expect((await journal.sessions.list()).map(({ digest }) => digest)).toEqual(['kept']);
      }));
  });

  describe('tokens', () => {
    test('are found with their person, tell when they were used, and are revoked by whoever may', () =>
      withTwo(async (journal) => {
        await journal.tokens.add(token('t', ben.id));
        await journal.tokens.used('token-t', beginMs + 3);
        expect(await journal.tokens.find('t')).toEqual({
          token: { ...token('t', ben.id), usedAtMs: beginMs + 3 },
          person: ben,
        });
        expect(await journal.tokens.list(ada.id)).toEqual([]);
        expect(await journal.tokens.remove('token-t', ada.id)).toBe(false);
        expect(await journal.tokens.remove('token-t', ben.id)).toBe(true);
        expect(await journal.tokens.find('t')).toBeUndefined();
        expect(await journal.tokens.list()).toEqual([]);
      }));
  });

  describe('attempts', () => {
    const twoFree = { key: 'pair', delayMs: (failures: number) => (failures < 3 ? 0 : 1000) };
    test('are counted until a wait is due, and one that must wait is not counted', () =>
      withEmpty(async (journal) => {
        const waits: number[] = [];
        for (const atMs of [0, 0, 0, 0, 600, 1000]) {
          waits.push(await journal.attempts.take([twoFree], beginMs + atMs, hourMs));
        }
        expect(waits).toEqual([0, 0, 0, 1000, 400, 0]);
      }));

    test('many at once count as many', () =>
      withEmpty(async (journal) => {
        const waits = await Promise.all(
          Array.from({ length: 12 }, () => journal.attempts.take([twoFree], beginMs, hourMs)),
        );
        expect(waits.filter((wait) => wait === 0)).toHaveLength(3);
      }));

    test('start anew after a quiet time, when told to be forgotten, and one less when given back', () =>
      withEmpty(async (journal) => {
        const counts: number[] = [];
        const count = async (atMs: number) =>
          journal.attempts.take(
            [
              {
                key: 'k',
                delayMs: (failures) => {
                  counts.push(failures);
                  return 0;
                },
              },
            ],
            beginMs + atMs,
            1000,
          );
        await count(0);
        await count(900);
        await count(1901);
        await count(1902);
        await journal.attempts.succeeded([], ['k']);
        await count(1903);
        await journal.attempts.succeeded(['k'], []);
        await count(1904);
        expect(counts).toEqual([1, 2, 1, 2, 2, 1]);
      }));

    test('a later key hears how often the earlier ones were counted', () =>
      withEmpty(async (journal) => {
        let heard = 0;
        const first = { key: 'all', delayMs: () => 0 };
        const second = {
          key: 'one',
          delayMs: (_: number, counted: ReadonlyMap<string, number>) => {
            heard = counted.get('all') ?? 0;
            return 0;
          },
        };
        for (const _ of [1, 2, 3]) await journal.attempts.take([first, second], beginMs, hourMs);
        expect(heard).toBe(3);
      }));
  });

  describe('the audit trail', () => {
    const record = (id: string, more: Partial<AuditRecord> = {}): AuditRecord => ({
      id,
      atMs: beginMs,
      personId: ada.id,
      personName: 'Ada',
      via: 'session',
      what: message('audit.did.laid-pile'),
      subject: 'bay_one',
      address: '192.0.2.7',
      before: null,
      after: { name: 'Bay one', inputs: [1, null] },
      ...more,
    });

    test('is read newest first, a page at a time, by person, time and words', () =>
      withEmpty(async (journal) => {
        const all = [
          record('1'),
          record('2', {
            personId: null,
            personName: null,
            via: 'nobody',
            what: verbatim('was refused'),
            subject: null,
          }),
          record('3', { subject: 'bay-two', atMs: beginMs + 5 }),
        ];
        for (const one of all) await journal.audit.add(one);
        const ids = async (question: Partial<Parameters<Journal['audit']['list']>[0]>) =>
          (await journal.audit.list({ limit: 10, ...question })).map(({ id }) => id);
        expect(await journal.audit.list({ limit: 1 })).toEqual([all[2]]);
        expect(await ids({})).toEqual(['3', '2', '1']);
        expect(await ids({ after: '3', limit: 1 })).toEqual(['2']);
        expect(await ids({ personId: ada.id })).toEqual(['3', '1']);
        expect(await ids({ fromMs: beginMs + 5 })).toEqual(['3']);
        expect(await ids({ toMs: beginMs + 5 })).toEqual(['2', '1']);
        const codes = ['audit.did.laid-pile', 'audit.did.laid'];
        expect(await ids({ words: { text: 'no such words', codes } })).toEqual(['3', '1']);
        expect(await ids({ words: { text: 'laid', codes: [] } })).toEqual([]);
        expect(await ids({ words: { text: 'REFUSED', codes: [] } })).toEqual([]);
        expect(await ids({ words: { text: 'Bay-Two', codes: [] } })).toEqual(['3']);
      }));

    test('takes the wildcards of the database in words as letters', () =>
      withEmpty(async (journal) => {
        await journal.audit.add(record('1'));
        await journal.audit.add(record('2', { subject: '100% bran\\mix' }));
        const found = async (words: string) =>
          (await journal.audit.list({ limit: 9, words: { text: words, codes: [] } })).map(({ id }) => id);
        expect([await found('%'), await found('_'), await found('\\'), await found("'; DROP TABLE audit; --")]).toEqual(
          [['2'], ['1'], ['2'], []],
        );
      }));

    test('is only ever added to: the same id twice is refused', () =>
      withEmpty(async (journal) => {
        await journal.audit.add(record('1'));
        await expect(journal.audit.add(record('1', { what: message('audit.did.signed-in') }))).rejects.toThrow(
          StoreError,
        );
        expect(await journal.audit.list({ limit: 9 })).toEqual([record('1')]);
      }));
  });
}
