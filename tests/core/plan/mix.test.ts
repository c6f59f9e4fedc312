import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { mixAskSchema } from '../../../shared/contracts/plan.ts';
import { anyMix, seed } from './arbitrary-asks.ts';
import { mixInWords } from './in-words.ts';

const plan = (ask: object) => mixInWords(mixAskSchema.parse(ask));
const bran = { material: 'wheat-bran', moisture: 0.6, bulkDensityKgM3: 440 };
const soil = { material: 'soil', moisture: 0.2 };
const byMass = (more: object = {}) =>
  plan({
    by: 'mass',
    materials: [
      { ...bran, massKg: 10 },
      { ...soil, massKg: 10 },
    ],
    ...more,
  });
const byVolume = (more: object = {}) =>
  plan({
    by: 'volume',
    materials: [
      { ...bran, volumeL: 10 },
      { ...soil, volumeL: 10 },
    ],
    ...more,
  });
const said = ({ remarks }: { remarks: { says: string }[] }) => remarks.map(({ says }) => says).join(' ');

describe('planMix()', () => {
  test('by volume needs much more water than by mass, though both are half and half', () => {
    const toTarget = { moistureTarget: 0.45 };
    const perKg = (answer: ReturnType<typeof plan>) => (answer.water?.waterKg ?? 0) / answer.massKg;
    expect(perKg(byVolume(toTarget))).toBeGreaterThan(2 * perKg(byMass(toTarget)));
  });
  test('tells mass, volume and moisture in a sentence, in the amounts that were asked for', () => {
    expect(byMass().says).toBe(
      '10 kg of wheat bran and 10 kg of garden soil together make 20 kg, about 31.1 L, at 40 % moisture.',
    );
    expect(byVolume().says).toMatch(/^10 L of wheat bran and 10 L of garden soil together make 16.4 kg, about 20 L/);
  });
  test('adds water to the target, its starter counted in', () => {
    // 20 × (0.5 − 0.4) / 0.5 = 4 kg of liquid.
    const { water, laid } = byMass({ moistureTarget: 0.5, starterL: 1 });
    expect(water?.waterKg).toBeCloseTo(3, 9);
    expect(laid).toMatchObject({ massKg: expect.closeTo(24, 9), moisture: expect.closeTo(0.5, 9) });
  });
  test('gives no water to a mix that is too wet already', () => {
    const answer = byMass({ moistureTarget: 0.3 });
    expect(answer.water).toMatchObject({ verdict: 'too-wet', waterKg: 0 });
    expect(answer.says).toContain('wetter than 30 %: give no water');
  });
  test('counts starter as laid even where no target was asked', () => {
    expect(byMass({ starterL: 5 }).laid).toMatchObject({ massKg: 25, moisture: 13 / 25 });
  });
  test('leaves C:N open and says of what it is not known', () => {
    expect(byMass().carbonNitrogen).toBeNull();
    expect(said(byMass())).toContain('missing for: garden soil');
    expect(byMass().defaults.some(({ what }) => what.startsWith('carbon'))).toBe(false);
  });
  test('tells C:N by mass where it is known, and that bran is rich in nitrogen', () => {
    const answer = plan({ by: 'mass', materials: [{ ...bran, massKg: 10 }] });
    expect(answer.carbonNitrogen).toBeCloseTo(0.45 / 0.0277, 9);
    expect(said(answer)).toContain('rich in nitrogen');
  });
  test('leaves volume, air and ground open for a material nobody weighed by volume', () => {
    const answer = plan({
      by: 'mass',
      stage: 'soil',
      materials: [
        { ...bran, massKg: 10 },
        { material: 'other', moisture: 0.3, massKg: 5 },
      ],
      spread: { by: 'rate', rateKgM2: 0.5 },
    });
    expect(answer).toMatchObject({ volumeL: null, freeAirSpace: null, footprint: null });
    expect(answer.laid).toMatchObject({ volumeL: null, freeAirSpace: null });
    expect(answer.spread).toEqual({ areaM2: 30, rateKgM2: 0.5, depthM: null });
  });
});

describe('planMix() on the ground', () => {
  test('takes the depth allowed for the stage, with its origin, and makes a square of it', () => {
    const answer = byVolume({ stage: 'soil' });
    expect(answer.footprint).toMatchObject({ depthM: 0.2, areaM2: expect.closeTo(0.1, 12) });
    expect(answer.footprint?.widthM).toBeCloseTo(Math.sqrt(0.1), 12);
    expect(answer.footprint?.lengthM).toBe(answer.footprint?.widthM);
    expect(answer.defaults).toContainEqual({
      what: 'depth allowed in the soil stage',
      value: 20,
      unit: 'cm',
      origin: 'common practice, no source',
      messages: {
        what: { code: 'plan.taken.depth', params: { stage: 'soil' } },
        origin: { code: 'origin.practice', params: {} },
      },
    });
  });
  test('makes a bed of the width there is', () => {
    expect(byVolume({ depthM: 0.1, widthM: 0.4 }).footprint).toMatchObject({
      areaM2: expect.closeTo(0.2, 12),
      widthM: 0.4,
      lengthM: expect.closeTo(0.5, 12),
    });
  });
  for (const [depthM, words] of [
    [0.19, 'Shallower than'],
    [0.2, ''],
    [0.38, ''],
    [0.39, 'may overheat'],
  ] as const) {
    test(`says of bran laid ${depthM} m deep: ${words || 'nothing'}`, () => {
      const answer = plan({ by: 'mass', stage: 'bran', depthM, materials: [{ ...bran, massKg: 10 }] });
      expect(/Shallower than|may overheat/.exec(said(answer))?.[0] ?? '').toBe(words);
    });
  }
  test('wants it lower in warm weather', () => {
    const at = (airC: number) =>
      said(plan({ by: 'mass', stage: 'bran', depthM: 0.35, airC, materials: [{ ...bran, massKg: 10 }] }));
    expect([at(24).includes('lay it lower'), at(25).includes('lay it lower')]).toEqual([false, true]);
  });
  for (const [moisture, words] of [
    [0.49, 'drier than'],
    [0.5, ''],
    [0.65, ''],
    [0.66, 'wetter than'],
  ] as const) {
    test(`says of bran laid at ${moisture}: ${words || 'nothing'}`, () => {
      const answer = plan({ by: 'mass', stage: 'bran', materials: [{ material: 'wheat-bran', moisture, massKg: 10 }] });
      expect(/drier than|wetter than/.exec(said(answer))?.[0] ?? '').toBe(words);
    });
  }
  test('covers an area by rate or by depth, and tells the one from the other', () => {
    const byRate = byVolume({ spread: { by: 'rate', rateKgM2: 0.164 } }).spread;
    // 16.4 kg and 20 L over 100 m2.
    expect(byRate).toEqual({
      areaM2: expect.closeTo(100, 9),
      rateKgM2: 0.164,
      depthM: expect.closeTo(0.0002, 12),
    });
    const byDepth = byVolume({ spread: { by: 'depth', depthM: 0.02 } });
    expect(byDepth.spread).toEqual({ areaM2: expect.closeTo(1, 9), rateKgM2: expect.closeTo(16.4, 9), depthM: 0.02 });
    expect(said(byDepth)).toContain('fifty times');
    expect(byDepth.cautions.join()).toContain('not sanitised');
  });
  for (const [name, wanted, reached] of [
    ['a mass', { of: 'mass', massKg: 200 }, { massKg: 200 }],
    ['a volume', { of: 'volume', volumeL: 300 }, { volumeL: 300 }],
  ] as const) {
    test(`fits the recipe to ${name} wanted, water and starter in it`, () => {
      const { laid, times, water } = byMass({ wanted, moistureTarget: 0.5, starterL: 1 });
      expect(laid).toMatchObject(
        Object.fromEntries(Object.entries(reached).map(([key, value]) => [key, expect.closeTo(value, 6)])),
      );
      expect(water?.starterKg).toBeCloseTo(times, 9);
    });
  }
  test('fits the recipe to beds to cover', () => {
    const spread = { by: 'rate', rateKgM2: 0.5 };
    const answer = byMass({ wanted: { of: 'area', areaM2: 80 }, spread, moistureTarget: 0.45 });
    expect(answer.laid.massKg).toBeCloseTo(40, 9);
    expect(answer.spread?.areaM2).toBeCloseTo(80, 9);
    const deep = byMass({ wanted: { of: 'area', areaM2: 4 }, spread: { by: 'depth', depthM: 0.025 } });
    expect(deep.laid.volumeL).toBeCloseTo(100, 9);
  });
  test('fits the recipe to the soil there is', () => {
    const answer = byVolume({ wanted: { of: 'material', index: 1, amount: 250 } });
    expect(answer.materials.map(({ volumeL }) => volumeL)).toEqual([250, 250]);
    expect(answer.times).toBe(25);
  });
});

describe('planMix(), whatever it is asked', () => {
  const sum = (values: number[]) => values.reduce((total, value) => total + value, 0);

  test('keeps mass, dry matter and water: the heap is what went into it', () => {
    fc.assert(
      fc.property(anyMix, (ask) => {
        const { materials, massKg, moisture, laid, water, times } = mixInWords(ask);
        const liquidKg = water === null ? (ask.starterL ?? 0) * times : water.waterKg + water.starterKg;
        const close = (one: number, other: number) =>
          expect(Math.abs(one - other)).toBeLessThanOrEqual(1e-9 * laid.massKg);
        close(sum(materials.map((one) => one.massKg)), massKg);
        close(sum(materials.map((one) => one.waterKg)), massKg * moisture);
        close(massKg + liquidKg, laid.massKg);
        close(sum(materials.map((one) => one.dryKg)), laid.massKg * (1 - laid.moisture));
        close(sum(materials.map((one) => one.waterKg)) + liquidKg, laid.massKg * laid.moisture);
      }),
      { seed },
    );
  });
  test('lies between its driest and its wettest material', () => {
    fc.assert(
      fc.property(anyMix, (ask) => {
        const { materials, moisture } = mixInWords(ask);
        const moistures = materials.map((one) => one.moisture);
        expect(moisture).toBeGreaterThanOrEqual(Math.min(...moistures) - 1e-12);
        expect(moisture).toBeLessThanOrEqual(Math.max(...moistures) + 1e-12);
      }),
      { seed },
    );
  });
  test('grows in every amount alike when more is wanted, and keeps moisture and C:N', () => {
    fc.assert(
      fc.property(anyMix, fc.double({ min: 1, max: 20, noNaN: true }), (ask, more) => {
        const once = mixInWords({ ...ask, wanted: undefined });
        const many = mixInWords({ ...ask, wanted: { of: 'mass', massKg: once.laid.massKg * more } });
        expect(many.times / more).toBeCloseTo(1, 9);
        expect(many.massKg / once.massKg / more).toBeCloseTo(1, 9);
        expect((many.volumeL ?? 0) / (once.volumeL ?? 1) / more).toBeCloseTo(1, 9);
        expect(many.laid.moisture).toBeCloseTo(once.laid.moisture, 9);
        expect(many.carbonNitrogen ?? 0).toBeCloseTo(once.carbonNitrogen ?? 0, 6);
      }),
      { seed },
    );
  });
  test('is the same by mass and by volume when the amounts are', () => {
    fc.assert(
      fc.property(anyMix, (ask) => {
        const { materials, moisture, massKg } = mixInWords({ ...ask, wanted: undefined });
        const same = mixAskSchema.parse({
          ...ask,
          wanted: undefined,
          by: ask.by === 'mass' ? 'volume' : 'mass',
          materials: ask.materials.map((given, index) => ({ ...given, ...pick(materials[index]) })),
        });
        const other = mixInWords(same);
        expect(other.moisture).toBeCloseTo(moisture, 9);
        expect(other.massKg / massKg).toBeCloseTo(1, 9);
      }),
      { seed },
    );
  });
});

function pick(material: { massKg: number; volumeL: number | null } | undefined) {
  return { massKg: material?.massKg, volumeL: material?.volumeL };
}
