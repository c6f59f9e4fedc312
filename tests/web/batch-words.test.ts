/**
 * Batches and lots in words, and what is sent of a lot.
 */
import { h } from 'preact';
import { render as toText } from 'preact-render-to-string';
import { describe, expect, test } from 'vitest';
import { newLotSchema } from '../../shared/contracts/lots.ts';
import type { PlanUnits } from '../../shared/contracts/plan.ts';
import { formatQuantity, type Reader } from '../../shared/messages/format.ts';
import { pageBatchTexts } from '../../shared/messages/made/en/page-batch.ts';
import { plainEnglish } from '../../shared/messages/render.ts';
import { pageWords } from '../../web/src/data/live/page-texts.ts';
import { amountWords, batchSentence, factsLine } from '../../web/src/features/batch/batch-words.ts';
import { HowMany } from '../../web/src/features/batch/batches-page.tsx';
import { layOnBody } from '../../web/src/features/batch/lay-on-fields.tsx';
import { draftOfLot, emptyLot, lotBody, lotErrors } from '../../web/src/features/batch/lot-draft.ts';
import { lotMaterials, lotSentence, lotWords } from '../../web/src/features/batch/lot-words.ts';
import { partBody } from '../../web/src/features/batch/part-of.tsx';
import { mockFamily } from '../helpers/mock-family.ts';

const metric: PlanUnits = { mass: 'kg', volume: 'L', length: 'm', temperature: 'C' };
const us: PlanUnits = { mass: 'lb', volume: 'gal', length: 'ft', temperature: 'F' };
const wordsIn = (units: PlanUnits) => {
  const reader: Reader = { language: 'en', timeZone: 'UTC', nowMs: 0, units };
  return lotWords(pageWords(pageBatchTexts, reader, formatQuantity), plainEnglish);
};
const words = wordsIn(metric);
const plain = (said: string | undefined) => said?.replaceAll('\u00a0', ' ');
const family = mockFamily(Date.parse('2031-06-11T10:00:00Z'));

describe('sentences', () => {
  test('a batch says where it lies, since when, and how it ended', () => {
    const [may, , north] = family.batches;
    expect(may && batchSentence(may, words)).toBe(
      'Bran stage, laid 28 May 2031 on Barn bran bed; moved to the next stage 6 Jun 2031.',
    );
    expect(north && batchSentence(north, words)).toMatch(/, laid .* on .*\. It is still working\.$/);
  });
  test('a starter says which wood it is from, a material who sold it', () => {
    const [oak, mill] = family.lots;
    expect(oak && lotSentence(oak, words, '1.2 kg')).toBe(
      '1.2\u00a0kg, collected in the oak wood behind the upper terrace, 28 Apr 2031, on cooked rice, with brown sugar 1:1, kept: in a jar in the cellar.',
    );
    expect(mill && lotSentence(mill, words)).toBe('Wheat bran, from Tidewell Mill, lot 44, certified organic.');
  });
  test('a lot of which only the name is known says what it is, and whether any is left', () => {
    const [oak] = family.lots;
    const bare = oak && { ...oak, storage: null, facts: { kind: 'starter' as const }, usedUp: true };
    expect(bare && lotSentence(bare, words)).toBe('Starter; used up.');
  });
  test('every material that a lot may be of has a name, and none stands twice', () => {
    const names = lotMaterials.map(words.material);
    expect(new Set(names).size).toBe(names.length);
    expect(names.filter((name) => name === '' || name.includes('.'))).toEqual([]);
    expect(lotMaterials.at(-1)).toBe('other');
  });
  test('facts stand one after the other, without those that nobody gave', () => {
    expect(factsLine([null, 'a', undefined, 'b', '', 'c'], words)).toBe('a, b, c');
    expect(factsLine([], words)).toBe('');
  });
  test.each([
    [[], 'No batch has been laid yet.'],
    [[{ endedAt: 'x' }], 'No batch is working now.'],
    [[{ endedAt: null }], 'One batch is working.'],
    [[{ endedAt: null }, { endedAt: null }, { endedAt: 'x' }], 'Two batches are working.'],
    [Array.from({ length: 13 }, () => ({ endedAt: null })), '13 batches are working.'],
  ])('of %j the page of batches says %j', (batches, says) => {
    expect(toText(h(HowMany, { batches }))).toBe(says);
  });
  test('an amount is said in the person’s units, or not at all', () => {
    expect(plain(amountWords({ massKg: 60, volumeL: null }, wordsIn(us)))).toBe('132 lb');
    expect(plain(amountWords({ massKg: 60, volumeL: 200 }, words))).toBe('60 kg, 200 L');
    expect(amountWords({ massKg: null, volumeL: null }, words)).toBeUndefined();
  });
});

describe('what is sent', () => {
  test.each(family.lots)('$name, opened again, is sent as it was', (lot) => {
    const again = newLotSchema.parse(lotBody(draftOfLot(lot, metric, 'UTC'), metric, 'UTC'));
    expect(again.name).toBe(lot.name);
    const shown = JSON.parse(JSON.stringify(lot.facts)) as Record<string, unknown>;
    for (const key of ['collectedAt', 'receivedAt']) {
      if (typeof shown[key] === 'string') shown[key] = Date.parse(shown[key]);
    }
    expect(again.facts).toEqual(shown);
  });
  test('a lot without a name or a material, and an amount that is none, are refused at their fields', () => {
    const draft = { ...emptyLot, kind: 'material' as const, mass: 'some' };
    expect(Object.fromEntries(lotErrors(lotBody(draft, metric, 'UTC'), words))).toEqual({
      '/name': 'Give it a name.',
      '/facts/material': 'Choose what it is.',
      '/massKg': 'Write a number above 0, such as 12.5.',
    });
  });
  test('all of a batch, or a part in pounds', () => {
    expect(partBody({ how: 'all', mass: '' }, metric)).toEqual({ all: true });
    expect(partBody({ how: 'part', mass: '100' }, us)).toEqual({ all: false, massKg: 45.359237 });
  });
  test('on a free pile, or on a new one at the same place', () => {
    expect(layOnBody({ pileId: 'wall', site: '', name: 'x' }, 'yard')).toEqual({ pileId: 'wall' });
    expect(layOnBody({ pileId: '', site: '', name: ' New bed ' }, 'yard')).toEqual({
      newPile: { site: 'yard', name: 'New bed' },
    });
  });
});
