/** No change without its row in the audit trail, whatever came with the change and whatever becomes of the row. */
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { auditData, mostDepth, withoutSecrets } from '../../../server/services/people/audit-text.ts';
import type { AuditEntry } from '../../../shared/contracts/people.ts';
import { openNewTestInstallation, type TestInstallation } from '../../helpers/open-test-server.ts';
import { settlePeople, type TestPeople } from '../../helpers/people.ts';

let one: TestInstallation;
let people: TestPeople;
beforeAll(async () => {
  one = await openNewTestInstallation();
  people = await settlePeople(one);
  await send('POST', '/api/sites', { name: 'Yard' });
  for (const id of ['bay-one', 'bay-two', 'bay-three'])
    await send('POST', '/api/piles', { id, site: 'yard', name: id, stage: 'bran' });
});
afterAll(() => one.closeAndRemove());

const send = (method: 'POST' | 'PATCH' | 'PUT' | 'DELETE', url: string, payload?: object | string) =>
  one.app.inject({
    method,
    url,
    headers: { ...people.owner, ...(payload !== undefined && { 'content-type': 'application/json' }) },
    ...(payload !== undefined && { payload }),
  });
const rows = async (words: string) =>
  (await one.app.inject({ url: `/api/audit?words=${words}`, headers: people.owner })).json<{ entries: AuditEntry[] }>()
    .entries;
const nested = (depth: number) => `${'['.repeat(depth)}${']'.repeat(depth)}`;

describe('a body where none is asked for', () => {
  const table: [what: string, payload: string | undefined, status: number][] = [
    ['none', undefined, 204],
    ['an empty object, as pages of before sent it', '{}', 204],
    ['nothing but null', 'null', 204],
    ['a field', '{"a":1}', 400],
    ['a text', '"a"', 400],
    ['20,000 nested lists', nested(20_000), 400],
  ];
  for (const [what, payload, status] of table) {
    test(`${what}: ${status}, and the row is there exactly when the change was made`, async () => {
      const id = `pile-of-${what.replace(/\W+/g, '-').toLowerCase()}`.slice(0, 40).replace(/-$/, '');
      expect((await send('POST', '/api/piles', { id, site: 'yard', name: id, stage: 'bran' })).statusCode).toBe(201);
      const before = (await rows('took')).length + (await rows('removed')).length;
      const answer = await send('DELETE', `/api/piles/${id}`, payload);
      expect([answer.statusCode, status === 400 && answer.json<{ detail: string }>().detail]).toEqual([
        status,
        status === 400 && 'This address takes no body: send the request without one.',
      ]);
      const after = (await rows('took')).length + (await rows('removed')).length;
      expect(after - before).toBe(status === 204 ? 1 : 0);
    });
  }
});

describe('fields nobody asked for', () => {
  test('of a waiting entry, however deep, change nothing and leave its row whole', async () => {
    const entry = { id: 'deep-entry-1', note: 'a note', what: { kind: 'note' } };
    const text = JSON.stringify({ entries: [{ pileId: 'bay-one', entry }] }).replace(
      '"note":"a note"',
      `"note":"a note","extra":${nested(20_000)}`,
    );
    const answer = await send('POST', '/api/entries', text);
    expect(answer.json()).toMatchObject({ outcomes: [{ outcome: 'kept' }] });
    const [row] = await rows('waited');
    expect(row).toMatchObject({ subject: 'deep-entry-1' });
    expect(JSON.stringify(row?.after)).toContain('a note');
    expect(JSON.stringify(row?.after)).not.toContain('extra');
  });

  test('are in no description of a body, but where each part is checked by itself', async () => {
    const { paths } = (await one.app.inject({ url: '/api/openapi.json', headers: people.owner })).json<{
      paths: Record<string, Record<string, { requestBody?: unknown }>>;
    }>();
    const loose = Object.entries(paths).flatMap(([path, methods]) =>
      Object.entries(methods)
        .filter(([, { requestBody }]) => JSON.stringify(requestBody ?? null).includes('"additionalProperties":{}'))
        .map(([method]) => `${method.toUpperCase()} ${path}`),
    );
    // Entries that waited: the route itself parses each, and says what of it was kept.
    expect(loose).toEqual(['POST /api/entries']);
  });
});

describe('a row that cannot be written', () => {
  const breakWith = (fails: (count: number, record: { before: unknown; after: unknown }) => boolean) => {
    const { add } = one.installation.journal.audit;
    let count = 0;
    Object.assign(one.installation.journal.audit, {
      add: async (record: Parameters<typeof add>[0]) => {
        count += 1;
        if (fails(count, record)) throw new Error('cannot be written');
        await add(record);
      },
    });
    return () => Object.assign(one.installation.journal.audit, { add });
  };

  test('whole is written short', async () => {
    const mend = breakWith((_count, { after }) => JSON.stringify(after).includes('Poisoned'));
    expect((await send('PATCH', '/api/piles/bay-two', { name: 'Poisoned' })).statusCode).toBe(200);
    mend();
    expect((await rows('changed a pile'))[0]).toMatchObject({
      subject: 'bay-two',
      before: null,
      after: { leftOut: 'unwritable' },
    });
  });

  test('at all is said by health, holds up every further change, and is written before the next one', async () => {
    const mend = breakWith(() => true);
    expect((await send('PATCH', '/api/piles/bay-three', { name: 'Owed' })).statusCode).toBe(200);
    const health = (await one.app.inject('/api/health')).json<{ parts: { audit: { state: string } } }>();
    expect(health.parts.audit.state).toBe('degraded');
    const refused = await send('PATCH', '/api/piles/bay-three', { name: 'Refused' });
    expect(refused.statusCode).toBe(503);
    mend();
    expect((await send('PATCH', '/api/piles/bay-three', { name: 'After' })).statusCode).toBe(200);
    const names = (await rows('changed a pile')).slice(0, 2).map(({ after }) => after);
    expect(names).toEqual([{ name: 'After' }, { name: 'Owed' }]);
    const well = (await one.app.inject('/api/health')).json<{ parts: { audit: { state: string } } }>();
    expect(well.parts.audit.state).toBe('ok');
  });
});

test('a change that fails on its way is in the trail as one that failed', async () => {
  const { reload } = one.installation.watch;
  Object.assign(one.installation.watch, {
    reload: async () => {
      throw new Error('no judge');
    },
  });
  const answer = await send('POST', '/api/piles/bay-one/acts', { kind: 'turned' });
  Object.assign(one.installation.watch, { reload });
  expect(answer.statusCode).toBe(500);
  expect((await rows('turned'))[0] ?? (await rows('wrote down'))[0]).toMatchObject({
    what: 'wrote down what was done to a pile (failed with 500; part of it may stand)',
    subject: 'bay-one',
    after: { kind: 'turned' },
  });
});

describe('auditData()', () => {
  test('goes so deep and no deeper', () => {
    const wrap = (depth: number) => {
      let value: unknown = 'inmost';
      for (let at = 0; at < depth; at += 1) value = { a: value };
      return value;
    };
    expect(JSON.stringify(withoutSecrets(wrap(mostDepth)))).toContain('inmost');
    expect(JSON.stringify(withoutSecrets(wrap(mostDepth + 1)))).not.toContain('inmost');
  });

  test('never throws and is never long', () => {
    const round: Record<string, unknown> = {};
    round.round = round;
    const wide = Object.fromEntries(Array.from({ length: 50_000 }, (_, at) => [`field${at}`, { a: [1, 2, 3] }]));
    const throwing = {
      get bad() {
        throw new Error('no');
      },
    };
    for (const value of [
      round,
      wide,
      throwing,
      1n,
      Symbol('s'),
      () => 1,
      JSON.parse(nested(100_000)),
      '\u0000\ud800',
    ]) {
      const data = auditData(value);
      const text = JSON.stringify(data);
      expect(text.length).toBeLessThanOrEqual(6_000);
      expect(JSON.parse(text)).toEqual(data);
    }
    expect([auditData(undefined), auditData(null)]).toEqual([null, null]);
  });
});
