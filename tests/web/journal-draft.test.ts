/**
 * An entry while it is written: what is missing is said, and what was written can be opened again as it was.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { newEntrySchema } from '../../shared/contracts/journal.ts';
import type { PlanUnits } from '../../shared/contracts/plan.ts';
import { type EntryFacts, entryKinds } from '../../shared/entry.ts';
import { formatQuantity } from '../../shared/messages/format.ts';
import { pageJournalTexts } from '../../shared/messages/made/en/page-journal.ts';
import { plainEnglish } from '../../shared/messages/render.ts';
import { pageWords } from '../../web/src/data/live/page-texts.ts';
import { newClientId } from '../../web/src/features/journal/client-id.ts';
import { entryCautions } from '../../web/src/features/journal/entry-cautions.ts';
import { checkedEntry, draftOf, emptyEntry } from '../../web/src/features/journal/entry-draft.ts';
import { entryGroups } from '../../web/src/features/journal/entry-groups.ts';
import { sizeWithin } from '../../web/src/features/journal/shrink-photo.ts';

const metric: PlanUnits = { mass: 'kg', volume: 'L', length: 'm', temperature: 'C' };
const us: PlanUnits = { mass: 'lb', volume: 'gal', length: 'ft', temperature: 'F' };
const atMs = Date.parse('2031-06-11T10:00:00Z');
const wordsIn = (units: PlanUnits) =>
  pageWords(pageJournalTexts, { language: 'en', timeZone: 'UTC', nowMs: atMs, units }, formatQuantity);
const words = wordsIn(metric);

const facts: readonly EntryFacts[] = [
  { kind: 'turned' },
  { kind: 'watered', amountL: 8 },
  { kind: 'watered' },
  { kind: 'rained', rainMm: 12 },
  { kind: 'rained' },
  { kind: 'spread', depthM: 0.25 },
  { kind: 'heaped', depthM: 0.4 },
  { kind: 'covered', cover: 'breathable' },
  { kind: 'uncovered' },
  { kind: 'moved', place: 'the cart shed' },
  { kind: 'squeeze', feel: 'holds', place: 'core' },
  { kind: 'smell', smells: ['sweet', 'earthy'] },
  { kind: 'growth', colour: 'other', otherColour: 'orange', place: 'skin', amount: 'few' },
  { kind: 'growth', colour: 'white' },
  { kind: 'pests', what: 'fungus gnats', amount: 'some' },
  { kind: 'sample', wetG: 10, dryG: 2.3 },
  { kind: 'measured', position: 'core', temperatureC: 44.5 },
  { kind: 'measured', position: 'air', temperatureC: -3, moisturePct: 31 },
  { kind: 'photo' },
  { kind: 'note' },
  { kind: 'readiness', smell: 'good', look: 'doubtful', ready: false },
  { kind: 'verdict', batchId: 'bran-1', verdict: 'usable', why: 'too-hot' },
  { kind: 'verdict', batchId: 'bran-1', verdict: 'good' },
];

describe('drafts', () => {
  test('every kind has a name, a place under the thumb, and is tried below; a verdict is asked where a batch ends', () => {
    const kinds = entryGroups.flatMap((one): readonly string[] => one.kinds);
    expect([...kinds, 'verdict'].sort()).toEqual([...entryKinds].sort());
    expect(new Set(facts.map((one) => one.kind)).size).toBe(entryKinds.length);
    const names = entryKinds.map((kind) => words.text('page-journal.kind', { kind }));
    expect(names).not.toContain('');
    expect(new Set(names).size).toBe(entryKinds.length);
    expect(entryGroups.map(({ group }) => words.text('page-journal.group', { group }))).not.toContain('');
  });

  test.each(facts)('$kind, opened again, says what was written: %j', (what) => {
    const draft = draftOf({ what, note: 'by hand', photoIds: ['photo-0001'] }, metric);
    const { entry, errors } = checkedEntry(draft, metric, atMs, 'M.', words);
    expect([...errors]).toEqual([]);
    const parsed = newEntrySchema.parse(entry);
    expect(parsed.what).toEqual(what);
    expect(parsed).toMatchObject({ at: atMs, by: 'M.', note: 'by hand', photoIds: ['photo-0001'] });
  });

  test('gallons and inches are kept as litres and metres', () => {
    const { entry } = checkedEntry({ ...emptyEntry('watered'), amount: '2' }, us, atMs, '', words);
    expect(newEntrySchema.parse(entry).what).toEqual({ kind: 'watered', amountL: 7.570823568 });
  });

  test('a thermometer in °F and with a decimal comma is kept in °C', () => {
    const { entry } = checkedEntry({ ...emptyEntry('measured'), temperature: '105,8' }, us, atMs, '', words);
    expect(newEntrySchema.parse(entry).what).toEqual({ kind: 'measured', position: 'core', temperatureC: 41 });
  });

  test('rain in inches is kept as millimetres: half an inch is 12.7 mm', () => {
    const { entry } = checkedEntry({ ...emptyEntry('rained'), amount: '0.5' }, us, atMs, '', words);
    expect(newEntrySchema.parse(entry).what).toEqual({ kind: 'rained', rainMm: 12.7 });
  });

  test.each([
    ['squeeze', '/what/feel', 'Say how the handful felt.'],
    ['smell', '/what/smells', 'Choose at least one smell.'],
    ['growth', '/what/colour', 'Say its colour.'],
    ['note', '/note', 'Write the note.'],
    ['photo', '/photoIds', 'Add a photo.'],
    ['readiness', '/what/smell', 'Say how it smells.'],
    ['sample', '/what/wetG', 'Say what it weighed as taken, in grams.'],
  ] as const)('an empty %s says what is missing', (kind, pointer, says) => {
    const { entry, errors } = checkedEntry(emptyEntry(kind), metric, atMs, '', words);
    expect(entry).toBeUndefined();
    expect(errors.get(pointer)).toBe(says);
  });

  test('nobody can call it ready while it smells bad', () => {
    const draft = { ...emptyEntry('readiness'), smell: 'bad', look: 'good', ready: 'yes' as const };
    expect(checkedEntry(draft, metric, atMs, '', words).errors.has('/what/ready')).toBe(true);
  });

  test('an amount that is no number is refused at its field', () =>
    expect(
      checkedEntry({ ...emptyEntry('watered'), amount: 'some' }, metric, atMs, '', words).errors.has('/what/amountL'),
    ).toBe(true));
});

test.each([
  ['rained', { amount: '501' }, '/what/rainMm', 'at most 500 mm', 'at most 19.7 in'],
  ['spread', { depth: '301' }, '/what/depthM', 'at most 300 cm', 'at most 118 in'],
] as const)('the most that %s may be is said in the unit of its field', (kind, typed, pointer, inMetric, inUs) => {
  const said = [metric, us].map((units) => {
    const draft = { ...emptyEntry(kind), ...typed };
    return checkedEntry(draft, units, atMs, '', wordsIn(units)).errors.get(pointer)?.replace('\u00a0', ' ');
  });
  expect(said).toEqual([`Enter a number; ${inMetric}.`, `Enter a number; ${inUs}.`]);
});

describe('words', () => {
  test('whoever smells a pile is told to wave its smell towards them', () =>
    expect(
      entryCautions('smell', undefined)
        .map((one) => plainEnglish(one))
        .join(' '),
    ).toContain('Do not put your nose into a mouldy heap'));
  for (const [temperatureC, isClosed] of [
    [64.9, false],
    [65, true],
    [72, true],
  ] as const)
    for (const kind of ['squeeze', 'sample', 'smell', 'growth', 'readiness'] as const)
      test(`${kind} of a pile at ${temperatureC} °C ${isClosed ? 'is not to be opened for' : 'may be opened for'}`, () => {
        const cautions = entryCautions(kind, { core: { probe: 'p1', temperatureC, silent: false } });
        const said = cautions.map((one) => plainEnglish(one)).join(' ');
        if (isClosed)
          expect(said).toMatch(
            new RegExp(`^At ${temperatureC} °C (do not open it for this|take no handful and do not smell it now): `),
          );
        else expect(said).not.toMatch(/do not open it/);
      });
  test('a note asks for no caution', () => expect(entryCautions('note', undefined)).toEqual([]));
});

test('ids made here are as the contract wants them, and each is its own', () => {
  const ids = Array.from({ length: 200 }, newClientId);
  expect(new Set(ids).size).toBe(200);
  expect(ids.every((id) => /^[A-Za-z0-9_-]{8,64}$/.test(id))).toBe(true);
});

test('a photo is made no longer than asked, never larger, and keeps its shape', () => {
  const side = fc.integer({ min: 1, max: 9000 });
  fc.assert(
    fc.property(side, side, (width, height) => {
      const small = sizeWithin(width, height, 1600);
      expect(Math.max(small.width, small.height)).toBeLessThanOrEqual(1600);
      const scale = Math.min(1, 1600 / Math.max(width, height));
      // Whole pixels, and at least one: off by half a pixel at most.
      expect(Math.abs(small.width - Math.max(1, width * scale))).toBeLessThanOrEqual(0.5);
      expect(Math.abs(small.height - Math.max(1, height * scale))).toBeLessThanOrEqual(0.5);
    }),
    { seed: 13, numRuns: 200 },
  );
});
