/**
 * What stands in the planner's fields, and what it comes to: units, refusals, and the way on to laying a pile.
 */
import { convert } from 'convert';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { PlanUnits } from '../../shared/contracts/plan.ts';
import { figuresMeasured } from '../../shared/figures-measured.ts';
import { measureText } from '../../shared/measure.ts';
import { plainReader } from '../../shared/messages/format.ts';
import { renderEnglish } from '../../shared/messages/render.ts';
import { pours } from '../../shared/pours.ts';
import { fromUnits, readMeasure, readUnits, restated, typed } from '../../web/src/data/plan-units.ts';
import { readNumber } from '../../web/src/data/read-number.ts';
import { draftOfQuery } from '../../web/src/features/plan/lay-query.ts';
import { heapMaterial, layAddress, planHeap, planStarter, planWetting } from '../../web/src/features/plan/plan-asks.ts';
import {
  changeHeap,
  changeStarter,
  changeWater,
  emptyHeap,
  emptyPlan,
  emptyStarter,
  emptyWater,
  stageOf,
} from '../../web/src/features/plan/plan-draft.ts';
import { layerTops } from '../../web/src/features/plan/shares-drawing.tsx';

const metric: PlanUnits = { mass: 'kg', volume: 'L', length: 'm', temperature: 'C' };
const us: PlanUnits = { mass: 'lb', volume: 'gal', length: 'ft', temperature: 'F' };

describe('units', () => {
  test.each([
    ['25', 25],
    ['12,5', 12.5],
    [' 0.3 ', 0.3],
    ['', undefined],
    ['  ', undefined],
  ])('readNumber(%j) is %s', (text, value) => expect(readNumber(text)).toBe(value));
  test('readNumber() of what is no number is refused as one', () => expect(readNumber('a lot')).toBeNaN());

  // The library's factors are the reference; 1e-12 is the rounding of both.
  test.each([
    ['massKg', 25, convert(25, 'lb').to('kg')],
    ['lengthM', 7, convert(7, 'ft').to('m')],
    ['depthM', 11, convert(11, 'in').to('m')],
    ['areaM2', 40, convert(40, 'square feet').to('square meters')],
    ['tempC', 131, convert(131, 'F').to('C')],
  ] as const)('fromUnits(%s, %d) agrees with a general library', (kind, value, expected) =>
    expect(Math.abs(fromUnits(kind, value, us) / expected - 1)).toBeLessThan(1e-12),
  );
  // 231 cubic inches, exact by definition.
  test('a US gallon is 3.785411784 L', () => expect(fromUnits('volumeL', 1, us)).toBe(3.785411784));
  test('a share typed as 60 is 0.6 and not a hair beside', () => expect(readMeasure('share', '60', metric)).toBe(0.6));
  test('a US teaspoon is a 768th of a gallon', () => expect(pours.tsp.ml * 768).toBeCloseTo(3785.411784, 9));

  test('what is restated in other units and back is what was typed, to four figures', () => {
    const kinds = fc.constantFrom('massKg', 'volumeL', 'depthM', 'lengthM', 'areaM2', 'rateKgM2', 'densityKgM3');
    fc.assert(
      fc.property(kinds, fc.integer({ min: 1, max: 9999 }), (kind, value) => {
        const back = restated(kind, restated(kind, String(value), metric, us), us, metric);
        expect(Math.abs(Number(back) / value - 1)).toBeLessThanOrEqual(1e-3);
      }),
      { seed: 11, numRuns: 300 },
    );
  });
  test('what cannot be read stays as it was typed', () =>
    expect(restated('massKg', 'a sack', metric, us)).toBe('a sack'));
  test('typed() of nothing is an empty field', () => expect(typed('massKg', undefined, metric)).toBe(''));
  test.each([null, 'junk', '[]', '{"mass":"stone"}'])('readUnits(%j) falls back to metric', (text) =>
    expect(readUnits(text)).toEqual({ mass: 'kg', volume: 'L', length: 'm' }),
  );
});

describe('starter', () => {
  // Common practice, no source: 1:500 of 8 L is 16 mL.
  test('1 part in 500 of 8 L is 16 mL', () => {
    const { answer } = planStarter({ ...emptyStarter, liquid: '8' }, metric);
    expect(answer?.starterMl).toBe(16);
  });
  test('half a cup measured for 2 US gallons is said to be many times off', () => {
    const { answer } = planStarter({ ...emptyStarter, liquid: '2', measured: '4', measuredIn: 'fl-oz' }, us);
    // 118.29 mL where 15.14 mL were asked for.
    expect(answer?.factorOff).toBeCloseTo(7.81, 2);
    expect(answer?.remarks.some((remark) => remark.tone === 'act')).toBe(true);
  });
  test('an empty form asks for the liquid, and a word is no number', () => {
    expect(planStarter(emptyStarter, metric).errors.get('/waterL')).toContain('is needed');
    expect(planStarter({ ...emptyStarter, liquid: 'much' }, metric).errors.has('/waterL')).toBe(true);
  });
});

describe('water', () => {
  test('the same bran in pounds and in kilograms takes the same water', () => {
    const inKg = planWetting({ ...emptyWater, mass: '11.33980925' }, metric).answer;
    const inLb = planWetting({ ...emptyWater, mass: '25' }, us).answer;
    expect(inLb?.waterKg).toBeCloseTo(inKg?.waterKg ?? 0, 9);
    expect(inLb && renderEnglish(inLb.says, { language: 'en', timeZone: 'UTC', nowMs: 0, units: us })).toContain(
      'US\u00a0gal',
    );
  });
  test('a moisture of 60 is read as per cent, and 160 is refused', () => {
    expect(
      planWetting({ ...emptyWater, mass: '10', moistureTarget: '160' }, metric).errors.get('/moistureTarget'),
    ).toContain('fraction');
  });
});

describe('heap', () => {
  const portions = emptyHeap.portions.map((one) => ({ ...one, amount: '100' }));
  test('by mass and by volume are two different heaps, and neither is guessed', () => {
    expect(planHeap({ ...emptyHeap, portions }, metric, 'UTC').errors.get('/by')).toContain('by mass');
    const byMass = planHeap({ ...emptyHeap, portions, by: 'mass' }, metric, 'UTC').answer;
    const byVolume = planHeap({ ...emptyHeap, portions, by: 'volume' }, metric, 'UTC').answer;
    expect(byMass?.massKg).toBeCloseTo(200, 9);
    expect(byVolume?.volumeL).toBeCloseTo(200, 9);
    expect(byVolume?.massKg).not.toBeCloseTo(200, 0);
  });
  test('a day gives the dates of checks and turns', () => {
    const dated = { ...emptyHeap, portions, by: 'mass' as const, startAt: '2031-06-12T08:00' };
    const dates = planHeap(dated, metric, 'UTC').answer?.dates ?? [];
    expect(dates.length).toBeGreaterThan(1);
    expect(dates.every((date) => date.atMs >= Date.parse('2031-06-12T08:00:00Z'))).toBe(true);
  });
  test.each([
    [[{ material: 'wheat-bran', massKg: 9 }], 'wheat-bran'],
    [
      [
        { material: 'rice-bran', massKg: 9 },
        { material: 'wheat-bran', massKg: 1 },
      ],
      'rice-bran',
    ],
    [
      [
        { material: 'wheat-bran', massKg: 9 },
        { material: 'soil', massKg: 1 },
      ],
      'soil-mix',
    ],
    [
      [
        { material: 'soil', massKg: 1 },
        { material: 'compost', massKg: 2 },
      ],
      'compost-mix',
    ],
    [[{ material: 'other', massKg: 9 }], 'other'],
  ] as const)('heapMaterial(%j) is %s', (of, name) => expect(heapMaterial(of)).toBe(name));
});

describe('laying what was planned', () => {
  test('the figures come through the address into the form', () => {
    const address = layAddress({
      stage: 'soil',
      material: 'soil-mix',
      massKg: 412.77777,
      moistureFrac: 0.45,
      depthM: 0.2,
    });
    const query = Object.fromEntries(new URL(address, 'http://farm').searchParams);
    expect(draftOfQuery(query)).toMatchObject({
      stage: 'soil',
      material: 'soil-mix',
      massKg: '412.78',
      moisturePct: '45',
      depthCm: '20',
      laidAt: '',
    });
  });
  test('an address anybody wrote does no harm', () =>
    expect(draftOfQuery({ stage: 'third', material: 'gold' })).toMatchObject({
      stage: 'bran',
      material: '',
    }));
});

test('the drawn layers add up to the mound: solids below, water above them, air on top', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 0, max: 0.6, noNaN: true }),
      fc.double({ min: 0, max: 0.4, noNaN: true }),
      (solid, water) => {
        const { solidY, waterY } = layerTops(solid, water);
        expect(waterY).toBeLessThanOrEqual(solidY);
        expect((78 - solidY) / 66).toBeCloseTo(solid, 9);
        expect((solidY - waterY) / 66).toBeCloseTo(water, 9);
      },
    ),
    { seed: 12, numRuns: 100 },
  );
});

describe('the three plans', () => {
  test('the diluted starter is the same liquid in each', () => {
    const plans = [
      changeStarter(emptyPlan, { liquid: '8' }),
      changeWater(emptyPlan, { starter: '8' }),
      changeHeap(emptyPlan, { starter: '8' }),
    ];
    for (const { starter, water, heap } of plans)
      expect([starter.liquid, water.starter, heap.starter]).toEqual(['8', '8', '8']);
  });

  test('what is wetted goes into the heap first, by mass; what it shall come to stays with each', () => {
    const wetted = changeWater(emptyPlan, {
      material: 'rice-bran',
      mass: '12',
      moistureNow: '11',
      moistureTarget: '60',
    });
    expect(wetted.heap.portions[0]).toMatchObject({ material: 'rice-bran', amount: '12', moisture: '11' });
    expect(wetted.heap.target).toBe('');
    const byMass = changeHeap(wetted, { by: 'mass' });
    expect(byMass.water).toEqual(wetted.water);
    const [first, ...others] = byMass.heap.portions;
    const more = changeHeap(byMass, { portions: [{ ...first, amount: '15' } as typeof first & object, ...others] });
    expect(more.water.mass).toBe('15');
    expect(changeHeap(more, { portions: others }).water).toEqual(more.water);
    const inBuckets = changeHeap(more, { by: 'volume' });
    expect(changeWater(inBuckets, { mass: '99' }).heap).toEqual(inBuckets.heap);
  });

  test('bran alone is laid as bran, until somebody says otherwise', () => {
    const given = (...amounts: string[]) => ({
      ...emptyHeap,
      portions: emptyHeap.portions.map((one, index) => ({ ...one, amount: amounts[index] ?? '' })),
    });
    expect([stageOf(emptyHeap), stageOf(given('12')), stageOf(given('12', '30'))]).toEqual(['soil', 'bran', 'soil']);
    expect(stageOf({ ...given('12'), stage: 'soil' })).toBe('soil');
  });
});

test('a starter measured in fluid ounces is answered in them', () => {
  const draft = { ...emptyStarter, liquid: '8', measuredIn: 'fl-oz' } as const;
  const says = planStarter(draft, metric).answer?.says;
  const reader = plainReader(0, { ...metric, starter: pours['fl-oz'] });
  // 8 L ÷ 500 = 16 mL; 16 ÷ 29.5735 = 0.541 (US fluid ounce of 29.5735295625 mL, NIST Handbook 44, Appendix C).
  expect(says && renderEnglish(says, reader).replaceAll('\u00a0', ' ')).toMatch(/^Take 0\.541 US fl oz of starter/);
});

test.each([
  ['volumeL', 7.984, '8 L'],
  ['volumeL', 0.984, '0.98 L'],
  ['volumeL', 4.32, '4.3 L'],
  ['volumeL', 23.74, '23.7 L'],
  ['volumeL', 412.3, '412 L'],
  ['lengthM', 0.532, '0.53 m'],
  ['lengthM', 2.374, '2.37 m'],
  ['lengthM', 12.36, '12.4 m'],
  ['starterMl', 11.356, '11.4 mL'],
  ['starterMl', 0.25, '0.25 mL'],
  ['areaM2', 0, '0 m²'],
] as const)('figuresMeasured(): %s of %d is measured out as %s', (kind, value, text) =>
  expect(measureText(kind, value, metric, figuresMeasured(kind, value))).toBe(text),
);
