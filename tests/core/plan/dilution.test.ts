import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { unitSlip } from '../../../core/plan/unit-slips.ts';
import { dilutionAskSchema } from '../../../shared/contracts/plan.ts';
import { plainEnglish } from '../../../shared/messages/render.ts';
import { anyDilution, seed } from './arbitrary-asks.ts';
import { dilutionInWords } from './in-words.ts';

const plan = (ask: object) => dilutionInWords(dilutionAskSchema.parse({ ratio: 500, convention: 'part-in', ...ask }));
const spoken = (ask: object) =>
  plan(ask)
    .remarks.map(({ says }) => says)
    .join(' ');

describe('planDilution()', () => {
  test('names both readings in plain words, with what the other would ask for', () => {
    expect(plan({ waterL: 10 })).toMatchObject({
      starterMl: 20,
      waterToAddL: 9.98,
      meaning: '1 part of starter in 500 parts of the finished liquid',
      otherwise: { convention: 'part-plus', meaning: '1 part of starter and 500 parts of water beside it' },
    });
    expect(plan({ waterL: 10 }).otherwise.starterMl).toBeCloseTo(19.96, 2);
    expect(plan({ waterL: 10, convention: 'part-plus' }).otherwise.starterMl).toBe(20);
  });
  test('says what to do in one sentence, in the units chosen', () => {
    expect(plan({ waterL: 8 }).says).toMatch(
      /^Take 16 mL of starter and fill up with water to 8 L: 1 part of starter in 500/,
    );
    const inGallons = plan({ waterL: 7.570823568, units: { volume: 'gal' } });
    expect(inGallons.says).toContain('15.1 mL of starter and fill up with water to 2 US gal');
  });
  test('finds a measured amount several times off, says the true ratio and guesses at the units', () => {
    const answer = plan({ waterL: 8, measuredMl: 60 });
    expect(answer).toMatchObject({ actualRatio: 8000 / 60, factorOff: 3.75, rightForL: 30 });
    expect(answer.remarks[0]).toMatchObject({ tone: 'act' });
    expect(answer.remarks[0]?.says).toBe(
      '60 mL in 8 L is really 1:133: 3.8 times as much starter as 1:500 asks for. Look at the units: it may have been ' +
        'worked out for US gallons and poured into as many litres. If it is poured already, it is right for 30 L of liquid in all.',
    );
  });
  test('finds too little as well, and says how much to add', () => {
    expect(plan({ waterL: 8, measuredMl: 4 })).toMatchObject({ actualRatio: 2000, factorOff: 0.25 });
    expect(spoken({ waterL: 8, measuredMl: 4 })).toBe(
      '4 mL in 8 L is really 1:2000: only 25 % of the starter that 1:500 asks for. Add 12 mL of starter.',
    );
  });
  for (const [measuredMl, tone] of [
    [14.3, 'watch'],
    [14.5, 'calm'],
    [17.5, 'calm'],
    [17.7, 'watch'],
    [23.9, 'watch'],
    [24.1, 'act'],
    [10.7, 'watch'],
    [10.6, 'act'],
  ] as const) {
    test(`calls ${measuredMl} mL for 16 mL: ${tone}`, () => {
      expect(plan({ waterL: 8, measuredMl }).remarks.map((remark) => remark.tone)).toEqual([tone]);
    });
  }
  test('turned round: 40 mL on hand make 40 L at 1:1000, and with a wanted amount beside it says whether they are enough', () => {
    expect(plan({ onHandMl: 40, ratio: 1000 })).toMatchObject({
      starterMl: 40,
      liquidL: 40,
      onHand: { makesL: 40, enough: true },
    });
    expect(plan({ onHandMl: 16, waterL: 8 }).onHand).toEqual({ makesL: 8, enough: true });
    expect(plan({ onHandMl: 15.9, waterL: 8 }).onHand?.enough).toBe(false);
  });
  test('at a strong ratio says where the starter goes, at a weak one does not bother', () => {
    expect(spoken({ waterL: 10, ratio: 49 })).toContain('fill with water up to the mark');
    expect(spoken({ waterL: 10, ratio: 50 })).toBe('');
  });

  test('starter and water make up the liquid, and stand in the ratio that was asked for', () => {
    fc.assert(
      fc.property(anyDilution, (ask) => {
        const { starterMl, waterToAddL, liquidL } = dilutionInWords(ask);
        expect(starterMl / 1000 + waterToAddL).toBeCloseTo(liquidL, 9);
        const parts = ask.convention === 'part-in' ? liquidL : waterToAddL;
        expect((parts * 1000) / starterMl / ask.ratio).toBeCloseTo(1, 9);
      }),
      { seed },
    );
  });
  test('measuring what it asks for is no factor off, and the more the starter the lower the N', () => {
    fc.assert(
      fc.property(anyDilution, (ask) => {
        const { starterMl } = dilutionInWords({ ...ask, measuredMl: undefined });
        const right = dilutionInWords({ ...ask, measuredMl: starterMl });
        expect(right.factorOff).toBeCloseTo(1, 12);
        expect((right.actualRatio ?? 0) / ask.ratio).toBeCloseTo(1, 9);
        const more = dilutionInWords({ ...ask, measuredMl: starterMl * 1.5 });
        expect(more.factorOff).toBeCloseTo(1.5, 9);
        expect(more.actualRatio).toBeLessThan(right.actualRatio ?? 0);
      }),
      { seed },
    );
  });
});

describe('unitSlip()', () => {
  for (const [factor, words] of [
    [3, 'tablespoons may have been measured for teaspoons'],
    [3.785, 'US gallons and poured into as many litres'],
    [1 / 3.785, 'litres and poured into as many US gallons'],
    [4.93, 'teaspoons may have been counted for millilitres'],
    [10, 'decimal point'],
    [14.8, 'tablespoons may have been counted'],
    [29.6, 'fluid ounces may have been taken for millilitres'],
    [1 / 29.6, 'millilitres may have been taken for fluid ounces'],
  ] as const) {
    test(`guesses for ${factor.toPrecision(3)} times: ${words}`, () => {
      const slip = unitSlip(factor);
      expect(slip && plainEnglish(slip)).toContain(words);
    });
  }
  test('guesses nothing for a factor that no unit explains', () => {
    expect([1, 1.5, 2, 6.2, 20, 0.5].map(unitSlip)).toEqual([null, null, null, null, null, null]);
  });
});
