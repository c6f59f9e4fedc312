import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { waterAskSchema } from '../../../shared/contracts/plan.ts';
import { anyWater, seed } from './arbitrary-asks.ts';
import { waterInWords } from './in-words.ts';

const plan = (ask: object) =>
  waterInWords(waterAskSchema.parse({ materialKg: 10, moistureNow: 0.12, moistureTarget: 0.6, ...ask }));
const said = (ask: object) =>
  plan(ask)
    .remarks.map(({ says }) => says)
    .join(' ');

describe('planWater()', () => {
  test('counts the starter as water, all of it before the squeeze test', () => {
    const { waterKg, firstPortionKg, restKg, starterKg } = plan({ starterL: 2 });
    // 12 kg of liquid in all; three quarters of it first.
    expect([waterKg, firstPortionKg, restKg, starterKg].map((kg) => kg.toFixed(9))).toEqual([
      '10.000000000',
      '7.000000000',
      '3.000000000',
      '2.000000000',
    ]);
  });
  test('gives no first portion of water when the starter alone is more than it', () => {
    const answer = plan({ starterL: 10 });
    expect(answer.firstPortionKg).toBe(0);
    expect(answer.restKg).toBeCloseTo(2, 9);
    expect(answer.says).toContain('Mix the starter in first');
  });
  test('says what to do, first portion before the squeeze test', () => {
    expect(plan({}).says).toBe(
      'Wheat bran needs 12 L of water to reach 60 %. Mix in 9 L of it first, let it soak in, and squeeze a handful hard: it ' +
        'should hold together and give two or three drops. Then the other 3 L, a little at a time.',
    );
    expect(plan({}).cautions.join()).toContain('Water cannot be taken out again');
  });
  test('speaks pounds and US gallons to who wants them, and answers in kg all the same', () => {
    const answer = plan({ units: { mass: 'lb', volume: 'gal' } });
    expect(answer.says).toContain('needs 3.17 US gal of water');
    expect(answer.waterKg).toBeCloseTo(12, 9);
    expect(answer.working[0]).toMatchObject({ sum: '22.05 lb × (60 % − 12 %) ÷ (100 % − 60 %)', unit: 'lb' });
  });
  test('answers a target below the present moisture plainly, never with negative water', () => {
    const answer = plan({ moistureNow: 0.7 });
    expect(answer).toMatchObject({ verdict: 'too-wet', waterKg: 0, firstPortionKg: 0, restKg: 0, moistureAfter: 0.7 });
    // 10 × (0.70 − 0.60) / (0.60 − 0.12)
    expect(answer.drierKg).toBeCloseTo(1 / 0.48, 9);
    expect(answer.says).toBe(
      'It is at 70 % already, wetter than 60 %: give no water. Mixing in 2.08 kg of dry wheat bran would bring it there.',
    );
  });
  test('tells a starter that is just enough from one that is too much', () => {
    expect(plan({ starterL: 12 })).toMatchObject({ verdict: 'enough', waterKg: 0 });
    expect(plan({ starterL: 14 })).toMatchObject({ verdict: 'too-wet', waterKg: 0 });
    expect(plan({ starterL: 14 }).says).toContain('With the starter it comes to');
    expect(plan({ moistureNow: 0.6 }).verdict).toBe('enough');
  });
  test('names nothing drier where the material as stored is not dry enough itself', () => {
    expect(plan({ moistureNow: 0.3, moistureTarget: 0.1 })).toMatchObject({ verdict: 'too-wet', drierKg: null });
  });
  test('takes wheat bran, its moisture and its target when nobody said, each with its origin', () => {
    const answer = waterInWords(waterAskSchema.parse({ materialKg: 10 }));
    expect(answer.waterKg).toBeCloseTo(12, 9);
    const origins = Object.fromEntries(answer.defaults.map(({ what, origin }) => [what, origin]));
    expect(origins['moisture wanted in wheat bran']).toBe('common practice, no source');
    expect(origins['bulk density of wheat bran as stored']).toContain('FAO');
    expect(answer.defaults.every(({ origin }) => origin.length > 10)).toBe(true);
  });
  test('lists no default for what was given', () => {
    const { defaults } = plan({ bulkDensityKgM3: 220, material: 'wheat-bran' });
    const names = defaults.map(({ what }) => what);
    expect(names.some((what) => what.includes('as stored'))).toBe(false);
  });
  test('wants rice bran drier than wheat bran', () => {
    const target = (material: string) => waterInWords(waterAskSchema.parse({ materialKg: 10, material })).moistureAfter;
    expect(target('rice-bran')).toBeLessThan(target('wheat-bran'));
  });
  for (const [target, warned] of [
    [0.49, true],
    [0.5, false],
    [0.6, false],
    [0.61, true],
  ] as const) {
    test(`${warned ? 'warns' : 'does not warn'} of rice bran at ${target}`, () => {
      expect(said({ material: 'rice-bran', moistureTarget: target }).includes('usually wetted to')).toBe(warned);
    });
  }
  test('warns of too little air just above the wettest moisture for it, not just below', () => {
    const wettest = plan({ material: 'rice-bran' }).wettestForAir ?? 0;
    expect(said({ material: 'rice-bran', moistureTarget: wettest + 0.001 })).toContain('Too little air');
    expect(said({ material: 'rice-bran', moistureTarget: wettest - 0.001 })).not.toContain('Too little air');
  });
  test('calls it mud where solid and water alone fill the volume', () => {
    const answer = plan({ material: 'rice-bran', moistureTarget: 0.8 });
    expect(answer.freeAirSpace).toBe(0);
    expect(answer.remarks.map(({ says }) => says).join()).toContain('mud');
  });
  test('leaves the air space open for a material nobody weighed', () => {
    expect(plan({ material: 'other' })).toMatchObject({ freeAirSpace: null, wettestForAir: null });
    expect(plan({ material: 'other', bulkDensityKgM3: 200 }).freeAirSpace).toBeCloseTo(0.6187, 4);
  });
  for (const [waterMeantL, words] of [
    [5, 'too dry'],
    [8, 'a little dry'],
    [12, 'within what is usual'],
    [18, 'too wet'],
  ] as const) {
    test(`judges ${waterMeantL} L meant for 10 kg of bran: ${words}`, () => {
      expect(plan({ materialKg: waterMeantL === 8 ? 11.3 : 10, waterMeantL }).meant?.says).toContain(words);
    });
  }
});

describe('planWater(), whatever it is asked', () => {
  test('keeps dry matter and water: what goes in is what is there afterwards', () => {
    fc.assert(
      fc.property(anyWater, (ask) => {
        const { waterKg, starterKg, massAfterKg, moistureAfter } = waterInWords(ask);
        const now = ask.moistureNow ?? 0;
        expect(massAfterKg).toBeCloseTo(ask.materialKg + waterKg + starterKg, 6);
        const dry = ask.materialKg * (1 - now);
        expect((massAfterKg * (1 - moistureAfter)) / dry).toBeCloseTo(1, 9);
      }),
      { seed },
    );
  });
  test('gives no negative water, reaches the target when it gives any, and its portions add up', () => {
    fc.assert(
      fc.property(anyWater, (ask) => {
        const { verdict, waterKg, firstPortionKg, restKg, moistureAfter } = waterInWords(ask);
        expect(Math.min(waterKg, firstPortionKg, restKg)).toBeGreaterThanOrEqual(0);
        expect(firstPortionKg + restKg).toBeCloseTo(waterKg, 6);
        if (verdict === 'add') expect(moistureAfter).toBeCloseTo(ask.moistureTarget ?? 0, 9);
        else expect(waterKg).toBe(0);
        if (verdict === 'too-wet') expect(moistureAfter).toBeGreaterThan(ask.moistureTarget ?? 1);
      }),
      { seed },
    );
  });
  test('gives more water for a wetter target and less air with it', () => {
    fc.assert(
      fc.property(anyWater, fc.double({ min: 0.001, max: 0.01, noNaN: true }), (ask, more) => {
        const wetter = waterInWords({ ...ask, moistureTarget: (ask.moistureTarget ?? 0) + more });
        const here = waterInWords(ask);
        expect(wetter.waterKg).toBeGreaterThanOrEqual(here.waterKg);
        expect(wetter.freeAirSpace ?? 0).toBeLessThanOrEqual(here.freeAirSpace ?? 0);
      }),
      { seed },
    );
  });
});
