import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import {
  entriesAnswerSchema,
  entryDetailSchema,
  entrySchema,
  type QueuedAnswer,
} from '../../../shared/contracts/journal.ts';
import { problemSchema } from '../../../shared/contracts/problem.ts';
import { entryKinds } from '../../../shared/entry.ts';
import { ago, type Farm, openFarm } from './farm.ts';

let farm: Farm;
let batchId: string;

beforeAll(async () => {
  farm = await openFarm();
  batchId = await farm.addPile('Cart shed', { startedAt: ago(48) });
});
afterAll(() => farm.close());

const url = '/api/piles/cart-shed/entries';
const pointers = (answer: { json<T>(): T }) =>
  problemSchema.parse(answer.json<unknown>()).errors?.map(({ pointer }) => pointer);

describe('POST /api/piles/:id/entries', () => {
  test('keeps an entry of every kind, with the batch that lay there and a phrase', async () => {
    const facts = [
      [{ kind: 'turned' }, 'Turned'],
      [{ kind: 'watered', amountL: 8 }, 'Watered, 8 L'],
      [{ kind: 'rained', rainMm: 7.5 }, 'Rain, 7.5 mm'],
      [{ kind: 'spread', depthM: 0.2 }, 'Spread thinner, to 20 cm'],
      [{ kind: 'heaped' }, 'Heaped up'],
      [{ kind: 'covered', cover: 'breathable' }, 'Covered, breathable cover'],
      [{ kind: 'uncovered' }, 'Uncovered'],
      [{ kind: 'moved', place: 'under the lean-to' }, 'Moved, under the lean-to'],
      [{ kind: 'squeeze', feel: 'pours' }, 'Squeezed: water runs out (too wet)'],
      [{ kind: 'smell', smells: ['sweet', 'earthy'] }, 'Smells sweet and earthy'],
      [{ kind: 'growth', colour: 'white', place: 'skin', amount: 'many' }, 'Growth, white, many, on the skin'],
      [{ kind: 'growth', colour: 'other', otherColour: 'orange' }, 'Growth, orange'],
      [{ kind: 'pests', what: 'flies' }, 'Pests, flies'],
      [{ kind: 'sample', wetG: 10, dryG: 2.3 }, 'Weighed sample, 10 g wet, 2.3 g dry: moisture 77 %, wet basis'],
      [{ kind: 'measured', position: 'core', temperatureC: 44.5 }, 'Measured by hand, core 44.5 °C'],
      [
        { kind: 'readiness', smell: 'good', look: 'doubtful', ready: false },
        'Not ready yet, smell good, look doubtful',
      ],
      [{ kind: 'verdict', batchId, verdict: 'usable', why: 'too-hot' }, 'Judged usable: it got too hot'],
    ] as const;
    for (const [what, says] of facts) {
      const answer = await farm.post(url, { what, at: ago(3), by: 'yard hand' });
      expect([answer.statusCode, entrySchema.parse(answer.json())]).toMatchObject([201, { what, says, batchId }]);
    }
    const note = await farm.post(url, { what: { kind: 'note' }, note: 'Rain in the night.' });
    expect(note.json()).toMatchObject({ note: 'Rain in the night.', says: 'Note' });
    // a photo needs its picture first; see photos.test.ts
    const tried = new Set([...facts.map(([what]) => what.kind), 'note', 'photo']);
    expect([...tried].sort()).toEqual([...entryKinds].sort());
  });

  test('sent again under its id gives the same answer and changes nothing', async () => {
    const entry = { id: 'a-turn-by-phone-1', what: { kind: 'turned' }, at: ago(2) };
    const first = await farm.post(url, entry);
    const again = await farm.post(url, entry);
    expect([first.statusCode, again.statusCode]).toEqual([201, 200]);
    expect(again.json()).toEqual(first.json());
    const other = await farm.post(url, { ...entry, what: { kind: 'watered' } });
    expect([other.statusCode, pointers(other)]).toEqual([409, ['/id']]);
  });

  const refusals: [string, object, number, string][] = [
    ['an unknown kind', { what: { kind: 'danced' } }, 400, '/what/kind'],
    ['a note without words', { what: { kind: 'note' } }, 400, '/note'],
    ['a photo entry without a photo', { what: { kind: 'photo' } }, 400, '/photoIds'],
    ['a photo that was not sent', { what: { kind: 'photo' }, photoIds: ['never-sent-1'] }, 409, '/photoIds/0'],
    ['more rain than ever fell', { what: { kind: 'rained', rainMm: 900 } }, 400, '/what/rainMm'],
    ['water of less than nothing', { what: { kind: 'watered', amountL: -1 } }, 400, '/what/amountL'],
    ['a squeeze that feels like nothing', { what: { kind: 'squeeze' } }, 400, '/what/feel'],
    ['a sample heavier dry than wet', { what: { kind: 'sample', wetG: 2, dryG: 3 } }, 400, '/what/dryG'],
    [
      'ready with a bad smell',
      { what: { kind: 'readiness', smell: 'bad', look: 'good', ready: true } },
      400,
      '/what/ready',
    ],
    ['a time to come', { what: { kind: 'turned' }, at: ago(-1) }, 422, '/at'],
    ['an id that is too short', { id: 'x', what: { kind: 'turned' } }, 400, '/id'],
  ];
  for (const [what, entry, status, pointer] of refusals) {
    test(`refuses ${what}, pointing at ${pointer}`, async () => {
      const answer = await farm.post(url, entry);
      expect([answer.statusCode, pointers(answer)]).toEqual([status, [pointer]]);
    });
  }

  test('answers 404 for a pile it does not know', async () => {
    expect((await farm.post('/api/piles/nope/entries', { what: { kind: 'turned' } })).statusCode).toBe(404);
  });
});

describe('corrections', () => {
  test('keep what was there before, newest first, and only the newest can be corrected', async () => {
    const made = entrySchema.parse(
      (await farm.post(url, { what: { kind: 'watered', amountL: 80 }, at: ago(1) })).json(),
    );
    const correction = {
      id: 'correction-1',
      replaces: made.versionId,
      reason: 'one nought too many',
      what: { kind: 'watered', amountL: 8 },
    };
    const corrected = await farm.post(`/api/entries/${made.id}/corrections`, correction);
    expect([corrected.statusCode, corrected.json()]).toMatchObject([
      201,
      { id: made.id, at: made.at, version: 2, says: 'Watered, 8 L', reason: 'one nought too many' },
    ]);
    expect((await farm.post(`/api/entries/${made.id}/corrections`, correction)).statusCode).toBe(200);
    const late = await farm.post(`/api/entries/${made.id}/corrections`, { ...correction, id: 'correction-2' });
    expect([late.statusCode, pointers(late)]).toEqual([409, ['/replaces']]);
    const detail = entryDetailSchema.parse((await farm.get(`/api/entries/${made.id}`)).json());
    expect(detail.earlier).toMatchObject([{ versionId: made.versionId, says: 'Watered, 80 L' }]);
    const struck = await farm.post(`/api/entries/${made.id}/withdrawal`, { replaces: 'correction-1' });
    expect(struck.json()).toMatchObject({ withdrawn: true, version: 3 });
    const listed = entriesAnswerSchema.parse((await farm.get(`${url}?kind=watered`)).json()).entries;
    expect(listed.map(({ id }) => id)).not.toContain(made.id);
    const all = entriesAnswerSchema.parse((await farm.get(`${url}?kind=watered&withdrawn=yes`)).json()).entries;
    expect(all.map(({ id }) => id)).toContain(made.id);
  });

  test('of rain are heard by the judge, by whichever road they were told', async () => {
    const rainHeard = () =>
      farm.one.installation.watching?.get('cart-shed')?.watch.setup?.acts.flatMap(({ rainMm }) => rainMm ?? []);
    await farm.post(url, { what: { kind: 'rained', rainMm: 6 } });
    const told = await farm.post('/api/piles/cart-shed/acts', { kind: 'rained', rainMm: 9.5 });
    expect([told.statusCode, told.json()]).toMatchObject([201, { kind: 'rained', rainMm: 9.5 }]);
    expect(rainHeard()).toEqual(expect.arrayContaining([6, 9.5]));
  });

  test('are heard by the judge: its acts are those that stand', async () => {
    const actsHeard = () =>
      farm.one.installation.watching?.get('cart-shed')?.watch.setup?.acts.map(({ kind, amountL }) => [kind, amountL]);
    const made = entrySchema.parse((await farm.post(url, { what: { kind: 'watered', amountL: 500 } })).json());
    expect(actsHeard()).toContainEqual(['watered', 500]);
    const what = { kind: 'watered', amountL: 5 };
    const answer = await farm.post(`/api/entries/${made.id}/corrections`, { replaces: made.versionId, what });
    expect(actsHeard()).toContainEqual(['watered', 5]);
    expect(actsHeard()).not.toContainEqual(['watered', 500]);
    const { versionId } = entrySchema.parse(answer.json());
    await farm.post(`/api/entries/${made.id}/withdrawal`, { replaces: versionId });
    expect(actsHeard()).not.toContainEqual(['watered', 5]);
  });
});

test('hands and nose are heard by the judge: squeezes, weighed samples, and the newest word on readiness', async () => {
  await farm.addPile('Heard', { startedAt: ago(48) });
  const heard = () => farm.one.installation.watching?.get('heard')?.watch.setup;
  const add = (hours: number, what: object) => farm.post('/api/piles/heard/entries', { what, at: ago(hours) });
  await add(9, { kind: 'squeeze', feel: 'pours' });
  await add(8, { kind: 'sample', wetG: 10, dryG: 4 });
  await add(7, { kind: 'sample', wetG: 10 });
  expect(heard()?.noted?.map(({ what }) => what)).toEqual([
    { kind: 'squeeze', feel: 'pours' },
    { kind: 'sample', wetG: 10, dryG: 4 },
    { kind: 'sample', wetG: 10 },
  ]);
  await add(5, { kind: 'readiness', smell: 'good', look: 'good', ready: true });
  expect(heard()?.confirmedAtMs).toBeDefined();
  await add(1, { kind: 'readiness', smell: 'bad', look: 'good', ready: false });
  expect(heard()?.confirmedAtMs).toBeUndefined();
});

describe('GET /api/piles/:id/entries', () => {
  test('lists page by page, newest first, every entry once', async () => {
    const whole = entriesAnswerSchema.parse((await farm.get(`${url}?limit=500`)).json()).entries;
    const paged: string[] = [];
    let after = '';
    do {
      const page = entriesAnswerSchema.parse((await farm.get(`${url}?limit=4${after}`)).json());
      paged.push(...page.entries.map(({ id }) => id));
      after = page.next === null ? '' : `&after=${encodeURIComponent(page.next)}`;
    } while (after);
    expect(paged).toEqual(whole.map(({ id }) => id));
    expect(whole.map(({ at }) => at)).toEqual(
      whole
        .map(({ at }) => at)
        .toSorted()
        .toReversed(),
    );
  });

  test('acts of the old way are entries too, and entries that are acts are acts', async () => {
    const act = (await farm.post('/api/piles/cart-shed/acts', { kind: 'spread', depthM: 0.25, note: 'hot' })).json<{
      id: string;
    }>();
    expect((await farm.get(`/api/entries/${act.id}`)).json()).toMatchObject({
      entry: { what: { kind: 'spread', depthM: 0.25 }, note: 'hot', says: 'Spread thinner, to 25 cm' },
    });
    const { acts } = (await farm.get('/api/piles/cart-shed/acts')).json<{ acts: { id: string }[] }>();
    expect(acts.map(({ id }) => id)).toEqual(expect.arrayContaining([act.id, 'a-turn-by-phone-1']));
  });

  test('of a batch: only while it lay there', async () => {
    await farm.post(url, { what: { kind: 'note' }, note: 'before it was laid', at: ago(60) });
    const answer = entriesAnswerSchema.parse((await farm.get(`/api/batches/${batchId}/entries?limit=500`)).json());
    expect(answer.entries.every((entry) => entry.batchId === batchId)).toBe(true);
    expect(answer.entries.map(({ note }) => note)).not.toContain('before it was laid');
  });
});

describe('entries that waited out of reach', () => {
  test('100 of them over connections that break thrice arrive once each, with their own times', async () => {
    await farm.addPile('Far terrace', { startedAt: ago(200) });
    const queue = Array.from({ length: 100 }, (_, i) => ({
      pileId: 'far-terrace',
      entry: {
        id: `queued-entry-${i}`,
        at: ago(100 - i),
        what: i % 4 ? { kind: 'note' } : { kind: 'turned' },
        note: `entry ${i}`,
      },
    }));
    // Thrice the connection breaks after the server took some, so the phone never hears and sends all of them again.
    for (const taken of [20, 45, 80]) await farm.post('/api/entries', { entries: queue.slice(0, taken) });
    const answer = (await farm.post('/api/entries', { entries: queue.toReversed() })).json<QueuedAnswer>();
    expect(answer.outcomes.filter(({ outcome }) => outcome === 'known')).toHaveLength(80);
    expect(answer.outcomes.filter(({ outcome }) => outcome === 'kept')).toHaveLength(20);
    const kept = entriesAnswerSchema.parse((await farm.get('/api/piles/far-terrace/entries?limit=500')).json()).entries;
    expect(kept.map(({ id, at, note }) => [id, at, note])).toEqual(
      queue.map(({ entry }) => [entry.id, entry.at, entry.note]).toReversed(),
    );
    expect(
      farm.one.installation.watching?.get('far-terrace')?.watch.setup?.acts.filter(({ kind }) => kind === 'turned'),
    ).toHaveLength(25);
  });

  test('one that cannot be kept does not hold back the others, and says why', async () => {
    const entries = [
      { pileId: 'far-terrace', entry: { id: 'queue-bad-kind', what: { kind: 'danced' } } },
      { pileId: 'no-such-pile', entry: { id: 'queue-no-pile', what: { kind: 'turned' } } },
      { pileId: 'far-terrace', entry: { id: 'queue-to-come', what: { kind: 'turned' }, at: ago(-9) } },
      { pileId: 'far-terrace', entry: { id: 'queue-is-good', what: { kind: 'turned' } } },
    ];
    const { outcomes } = (await farm.post('/api/entries', { entries })).json<QueuedAnswer>();
    expect(outcomes.map(({ id, outcome, pointer }) => [id, outcome, pointer])).toEqual([
      ['queue-bad-kind', 'refused', '/what/kind'],
      ['queue-no-pile', 'refused', '/pileId'],
      ['queue-to-come', 'refused', '/at'],
      ['queue-is-good', 'kept', null],
    ]);
  });
});
