/** Requests to the planner, at random within what its schemas allow. */
import fc from 'fast-check';
import {
  type DilutionAsk,
  dilutionAskSchema,
  type MixAsk,
  mixAskSchema,
  type WaterAsk,
  waterAskSchema,
} from '../../../shared/contracts/plan.ts';

export const seed = 20_310_405;

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const maybe = <T>(one: fc.Arbitrary<T>) => fc.option(one, { nil: undefined });

export const anyUnits = fc.record({
  mass: fc.constantFrom('kg' as const, 'lb' as const),
  volume: fc.constantFrom('L' as const, 'gal' as const),
  length: fc.constantFrom('m' as const, 'ft' as const),
  temperature: fc.constantFrom('C' as const, 'F' as const),
});

export const anyDilution: fc.Arbitrary<DilutionAsk> = fc
  .record({
    waterL: between(0.1, 2000),
    ratio: between(2, 2000),
    convention: fc.constantFrom('part-in' as const, 'part-plus' as const),
    onHandMl: maybe(between(1, 5000)),
    measured: maybe(between(0.001, 0.9)),
    units: anyUnits,
  })
  .map(({ measured, ...ask }) =>
    dilutionAskSchema.parse({ ...ask, measuredMl: measured === undefined ? undefined : measured * ask.waterL * 1000 }),
  );

export const anyWater: fc.Arbitrary<WaterAsk> = fc
  .record({
    materialKg: between(0.1, 5000),
    material: fc.constantFrom('wheat-bran', 'rice-bran', 'soil', 'compost', 'other'),
    moistureNow: between(0, 0.9),
    moistureTarget: between(0.06, 0.89),
    starterL: maybe(between(0, 2000)),
    waterMeantL: maybe(between(0, 2000)),
    bulkDensityKgM3: maybe(between(100, 1500)),
    units: anyUnits,
  })
  .map((ask) => waterAskSchema.parse(ask));

const anyKnown = {
  material: fc.constantFrom('wheat-bran', 'rice-bran', 'soil', 'compost', 'other'),
  moisture: between(0.02, 0.85),
  bulkDensityKgM3: between(100, 1500),
  carbonFrac: maybe(between(0.05, 0.6)),
  nitrogenFrac: maybe(between(0.001, 0.1)),
};
const anyMixing = {
  moistureTarget: maybe(between(0.1, 0.85)),
  starterL: maybe(between(0, 200)),
  stage: fc.constantFrom('bran' as const, 'soil' as const),
  widthM: maybe(between(0.3, 20)),
  spread: maybe(
    fc.oneof(
      fc.record({ by: fc.constant('rate'), rateKgM2: between(0.01, 50) }),
      fc.record({ by: fc.constant('depth'), depthM: between(0.002, 0.5) }),
    ),
  ),
  wanted: maybe(
    fc.oneof(
      fc.record({ of: fc.constant('mass'), massKg: between(1, 10_000) }),
      fc.record({ of: fc.constant('volume'), volumeL: between(1, 10_000) }),
      fc.record({ of: fc.constant('material'), index: fc.constant(0), amount: between(1, 1000) }),
    ),
  ),
  units: anyUnits,
};

export const anyMix: fc.Arbitrary<MixAsk> = fc
  .oneof(
    fc.record({
      by: fc.constant('mass'),
      materials: fc.array(fc.record({ ...anyKnown, massKg: between(0.1, 1000) }), { minLength: 1, maxLength: 4 }),
      ...anyMixing,
    }),
    fc.record({
      by: fc.constant('volume'),
      materials: fc.array(fc.record({ ...anyKnown, volumeL: between(0.1, 1000) }), { minLength: 1, maxLength: 4 }),
      ...anyMixing,
    }),
  )
  .map((ask) => mixAskSchema.parse(ask));
