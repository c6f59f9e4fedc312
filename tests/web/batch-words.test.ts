/**
 * Batches and lots in words, and what the server is told of a lot.
 */
import { describe, expect, test } from 'vitest';
import { newLotSchema } from '../../shared/contracts/lots.ts';
import type { PlanUnits } from '../../shared/contracts/plan.ts';
import { amountWords, batchSentence, lotSentence } from '../../web/src/features/batch/batch-words.ts';
import { batchesSentence } from '../../web/src/features/batch/batches-sentence.ts';
import { layOnBody } from '../../web/src/features/batch/lay-on-fields.tsx';
import { draftOfLot, emptyLot, lotBody, lotErrors } from '../../web/src/features/batch/lot-draft.ts';
import { partBody } from '../../web/src/features/batch/part-of.tsx';
import { fullDay } from '../../web/src/ui/format/full-date.ts';
import { mockFamily } from '../helpers/mock-family.ts';

const metric: PlanUnits = { mass: 'kg', volume: 'L', length: 'm', temperature: 'C' };
const us: PlanUnits = { mass: 'lb', volume: 'gal', length: 'ft', temperature: 'F' };
const reader = { timeZone: 'UTC', hour12: false };
const day = (instant: string | number) => fullDay(typeof instant === 'number' ? instant : Date.parse(instant), reader);
const family = mockFamily(Date.parse('2031-06-11T10:00:00Z'));

describe('sentences', () => {
  test('a batch says where it lies, since when, and how it ended', () => {
    const [may, , north] = family.batches;
    expect(may && batchSentence(may, day)).toBe(
      'Bran stage, laid 28 May 2031 on Barn bran bed; taken on to the next stage 6 Jun 2031.',
    );
    expect(north && batchSentence(north, day)).toContain('It is still working.');
  });
  test('a starter says which wood it is from, a material who sold it', () => {
    const [oak, mill] = family.lots;
    expect(oak && lotSentence(oak, day)).toContain('Collected in the oak wood behind the upper terrace, 28 Apr 2031');
    expect(mill && lotSentence(mill, day)).toBe('Wheat bran, from Tidewell Mill, lot 44, certified organic.');
  });
  test.each([
    [[], 'No batch was laid yet.'],
    [[{ endedAt: 'x' }], 'No batch is working now.'],
    [[{ endedAt: null }], 'One batch is working.'],
    [[{ endedAt: null }, { endedAt: null }, { endedAt: 'x' }], 'Two batches are working.'],
  ])('batchesSentence(%j) is %j', (batches, says) => expect(batchesSentence(batches)).toBe(says));
  test('an amount is said in the person’s units, or not at all', () => {
    expect(amountWords({ massKg: 60, volumeL: null }, us)).toBe('132 lb');
    expect(amountWords({ massKg: null, volumeL: null }, metric)).toBeUndefined();
  });
});

describe('what the house is told', () => {
  test.each(family.lots)('$name, opened again, is told as it was', (lot) => {
    const again = newLotSchema.parse(lotBody(draftOfLot(lot, metric, 'UTC'), metric, 'UTC'));
    expect(again.name).toBe(lot.name);
    const shown = JSON.parse(JSON.stringify(lot.facts)) as Record<string, unknown>;
    for (const key of ['collectedAt', 'receivedAt']) {
      if (typeof shown[key] === 'string') shown[key] = Date.parse(shown[key]);
    }
    expect(again.facts).toEqual(shown);
  });
  test('a lot without a name is refused at its field', () =>
    expect(lotErrors(lotBody(emptyLot, metric, 'UTC')).has('/name')).toBe(true));
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
