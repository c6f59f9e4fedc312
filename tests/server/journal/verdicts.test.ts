/** Verdicts: given, corrected, struck out, handed in late, and found wherever a batch is shown. */
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { entriesAnswerSchema, entrySchema } from '../../../shared/contracts/journal.ts';
import { batchesAnswerSchema } from '../../../shared/contracts/lineage.ts';
import { auditAnswerSchema } from '../../../shared/contracts/people.ts';
import { problemSchema } from '../../../shared/contracts/problem.ts';
import { batchRecordSchema } from '../../../shared/contracts/records.ts';
import { compareAnswerSchema } from '../../../shared/contracts/seasons.ts';
import { verdictAnswerSchema } from '../../../shared/contracts/verdict.ts';
import { ago, type Farm, openFarm } from './farm.ts';

let farm: Farm;
let batchId: string;
let nextId: string;
let entry: { id: string; versionId: string };
const pile = '/api/piles/cart-shed';

beforeAll(async () => {
  farm = await openFarm();
  batchId = await farm.addPile('Cart shed', { startedAt: ago(200) });
  await farm.post(`${pile}/entries`, { what: { kind: 'smell', smells: ['earthy'] }, at: ago(60) });
  await farm.post(`${pile}/finish`, { at: ago(50) });
  const next = await farm.post(`${pile}/batches`, { stage: 'bran', startedAt: ago(40) });
  nextId = next.json<{ batch: { id: string } }>().batch.id;
});
afterAll(() => farm.close());

const verdict = async (id = batchId) =>
  verdictAnswerSchema.parse((await farm.get(`/api/batches/${id}/verdict`)).json());
const shown = async (id = batchId) =>
  batchesAnswerSchema.parse((await farm.get('/api/batches')).json()).batches.find((batch) => batch.id === id)?.verdict;

test('before anybody says so there is none, and the record offers what was smelt', async () => {
  const { verdict: none, offers } = await verdict();
  expect(none).toBeNull();
  expect(offers.map(({ why, says }) => [why, says])).toEqual([['smelt-good', 'Written down: Smells earthy.']]);
  expect(await shown()).toBeNull();
  expect((await farm.get('/api/batches/none/verdict')).statusCode).toBe(404);
});

describe('given while the next batch lies there', () => {
  test('it is kept as an entry of the batch that it names', async () => {
    const what = { kind: 'verdict', batchId, verdict: 'usable', why: 'too-dry' };
    const answer = await farm.post(`${pile}/entries`, { id: 'verdict-by-phone', what, at: ago(2), by: 'Ines' });
    expect(answer.statusCode).toBe(201);
    entry = entrySchema.parse(answer.json());
    expect(entry).toMatchObject({ batchId, what, says: 'Judged usable: it was too dry' });
    const of = async (id: string) =>
      entriesAnswerSchema
        .parse((await farm.get(`/api/batches/${id}/entries`)).json())
        .entries.map(({ what }) => what.kind);
    expect([await of(batchId), await of(nextId)]).toEqual([['verdict', 'smell'], []]);
  });

  test('it stands in the list, the record on page and paper, the comparison and the exports', async () => {
    const says = 'Judged usable: it was too dry';
    expect(await shown()).toMatchObject({ verdict: 'usable', why: 'too-dry', by: 'Ines', says });
    expect(await shown(nextId)).toBeNull();
    const record = batchRecordSchema.parse((await farm.get(`/api/batches/${batchId}/record`)).json());
    expect(record.batch.verdict).toMatchObject({ says });
    expect(record.entries.map(({ says: said }) => said)).toContain(says);
    const paper = await farm.get(`/api/batches/${batchId}/record.pdf`);
    expect([paper.statusCode, paper.rawPayload.subarray(0, 5).toString()]).toEqual([200, '%PDF-']);
    const compared = compareAnswerSchema.parse((await farm.get('/api/compare')).json());
    expect(compared.batches.map(({ id, verdict: of }) => [id, of?.verdict])).toEqual([[batchId, 'usable']]);
    expect((await farm.get('/api/compare.csv')).body).toContain(',usable,too-dry,');
    expect((await farm.get('/api/export/batches.csv')).body).toContain('usable,too-dry');
    expect((await farm.get('/api/export/entries.csv')).body).toContain(`${batchId},usable,too-dry`);
    const split = await farm.get('/api/seasons/difference?split=verdict');
    expect(split.json()).toMatchObject({ groups: [{ id: 'usable', batches: 1 }] });
  });

  test('the audit trail says who changed what', async () => {
    const { entries } = auditAnswerSchema.parse((await farm.get('/api/audit')).json());
    const row = entries.find(({ after }) => JSON.stringify(after)?.includes('"verdict":"usable"'));
    expect(row?.what).toBe('wrote into the journal of a pile');
  });
});

test('corrected, the new one counts and the first stays readable; struck out, there is none', async () => {
  const what = { kind: 'verdict', batchId, verdict: 'good', why: 'smelt-good' };
  const corrected = await farm.post(`/api/entries/${entry.id}/corrections`, {
    id: 'verdict-second',
    replaces: entry.versionId,
    reason: 'opened it again',
    what,
    note: 'better inside',
  });
  expect(corrected.statusCode).toBe(201);
  expect((await verdict()).verdict).toMatchObject({
    verdict: 'good',
    note: 'better inside',
    versionId: 'verdict-second',
  });
  const history = await farm.get(`/api/entries/${entry.id}`);
  expect(history.json()).toMatchObject({ earlier: [{ what: { verdict: 'usable' } }] });
  const struck = await farm.post(`/api/entries/${entry.id}/withdrawal`, { replaces: 'verdict-second' });
  expect(struck.statusCode).toBe(200);
  expect([await shown(), (await verdict()).verdict]).toEqual([null, null]);
});

test('of two people’s verdicts the one given last counts, in whatever order they arrive', async () => {
  const given = (id: string, hours: number, word: string) => ({
    pileId: 'cart-shed',
    entry: { id, at: ago(hours), what: { kind: 'verdict', batchId, verdict: word, why: 'uneven' } },
  });
  const entries = [given('later-but-first', 1, 'poor'), given('earlier-but-late', 9, 'usable')];
  const handed = await farm.post('/api/entries', { entries });
  expect(handed.json()).toMatchObject({ outcomes: [{ outcome: 'kept' }, { outcome: 'kept' }] });
  expect(await shown()).toMatchObject({ verdict: 'poor' });
});

test.each([
  ['no reason at all', { verdict: 'good' }, {}, 400, '/note'],
  ['a word that is no verdict', { verdict: 'superb', why: 'smelt-good' }, {}, 400, '/what/verdict'],
  ['a reason that is none', { verdict: 'good', why: 'luck' }, {}, 400, '/what/why'],
  ['a batch that never lay there', { batchId: 'none', verdict: 'good', why: 'smelt-good' }, {}, 409, '/what/batchId'],
])('%s is refused, and where is said', async (_, facts, more, status, pointer) => {
  const answer = await farm.post(`${pile}/entries`, { what: { kind: 'verdict', batchId, ...facts }, ...more });
  expect([answer.statusCode, problemSchema.parse(answer.json()).errors?.[0]?.pointer]).toEqual([status, pointer]);
});

test('own words are a reason', async () => {
  const answer = await farm.post(`${pile}/entries`, {
    what: { kind: 'verdict', batchId: nextId, verdict: 'lost' },
    note: 'The goats got in.',
  });
  expect(answer.statusCode).toBe(201);
  expect(await shown(nextId)).toMatchObject({ verdict: 'lost', why: null, note: 'The goats got in.' });
});
