/**
 * What a probe can measure, in which unit we keep it, and which values no probe can mean. It never judges a pile: 85 °C
 * in a pile is news, 200 °C is a fault of the probe.
 */
import { z } from 'zod';
import { dbwToDbm, fahrenheitToCelsius } from './units.ts';

export const quantities = ['temperature', 'humidity', 'moisture', 'co2', 'battery', 'rssi'] as const;
export const quantitySchema = z.enum(quantities);
export type Quantity = z.infer<typeof quantitySchema>;

/** Describes a field of the API that holds what a soil probe reads. */
const volumetric =
  'Volumetric water content as a soil probe reads it [% of volume]. Not comparable with moistures of recipes, samples, limits and the water balance, which are wet basis: per cent, or a fraction, of the wet mass.';

type Convert = (value: number) => number;

const asIs: Convert = (value) => value;
// One millionth of a unit is far below any probe; without it 105.8 °F would be 40.99999999999999 °C.
const rounded =
  (convert: Convert): Convert =>
  (value) =>
    Math.round(convert(value) * 1e6) / 1e6;

export interface QuantityFacts {
  /** Key under which the value travels in the API. */
  readonly key: string;
  readonly unit: string;
  /** Smallest and largest value a probe of any kind can mean; outside it the reading is refused. */
  readonly min: number;
  readonly max: number;
  /** Units it may come in, the likeliest first, and how each becomes ours: SenML's names (RFC 8428 section 12.1, RFC 8798) and our own. */
  readonly from: Readonly<Record<string, Convert>>;
  /** Of the pile or the air beside it, rather than of the probe itself: judged, charted and shown with the pile. */
  readonly isOfPile: boolean;
}

export const quantityFacts = {
  // One-wire chips span -55..125 °C (maker's data sheet); thermocouples are not expected in bran.
  temperature: {
    key: 'temperatureC',
    unit: '°C',
    min: -55,
    max: 125,
    from: { Cel: asIs, C: asIs, F: rounded(fahrenheitToCelsius), K: rounded((kelvin) => kelvin - 273.15) },
    isOfPile: true,
  },
  // Uncropped values of digital chips reach -6..119 % (maker's conversion formula) and show saturation.
  humidity: {
    key: 'humidityPct',
    unit: '%RH',
    min: -6,
    max: 119,
    from: { '%RH': asIs, '%': asIs, '/': rounded((fraction) => fraction * 100) },
    isOfPile: true,
  },
  // Volumetric water content; a fraction on the wire becomes per cent here. Limits and recipes are of the wet mass: another thing.
  moisture: {
    key: 'moisturePct',
    unit: '% of volume',
    min: 0,
    max: 100,
    from: { '%': asIs, '/': rounded((fraction) => fraction * 100) },
    isOfPile: true,
  },
  co2: {
    key: 'co2Ppm',
    unit: 'ppm',
    min: 0,
    max: 1_000_000,
    from: { ppm: asIs, '%': rounded((pct) => pct * 10_000) },
    isOfPile: true,
  },
  battery: {
    key: 'batteryV',
    unit: 'V',
    min: 0,
    max: 60,
    from: { V: asIs, mV: rounded((millivolts) => millivolts / 1000) },
    isOfPile: false,
  },
  rssi: {
    key: 'rssiDbm',
    unit: 'dBm',
    min: -200,
    max: 50,
    from: { dBm: asIs, dBW: rounded(dbwToDbm) },
    isOfPile: false,
  },
} as const satisfies Record<Quantity, QuantityFacts>;

type UnitOf<Q extends Quantity> = keyof (typeof quantityFacts)[Q]['from'];
/** Units that a mapping may name; SenML's own name of °C is for payloads. */
export type ForeignUnit = Exclude<{ [Q in Quantity]: UnitOf<Q> }[Quantity], 'Cel'>;

/** The likeliest first. @example foreignUnitsOf('co2') // => ["ppm", "%"] */
export function foreignUnitsOf(quantity: Quantity): ForeignUnit[] {
  return (Object.keys(quantityFacts[quantity].from) as (ForeignUnit | 'Cel')[]).filter((unit) => unit !== 'Cel');
}

export const foreignUnits = [...new Set(quantities.flatMap(foreignUnitsOf))];

export type PileQuantity = {
  [Q in Quantity]: (typeof quantityFacts)[Q]['isOfPile'] extends true ? Q : never;
}[Quantity];
type PileQuantityKey = (typeof quantityFacts)[PileQuantity]['key'];

export const pileQuantities = quantities.filter((one): one is PileQuantity => quantityFacts[one].isOfPile);

/** Fields of the API that hold what is measured of a pile, each by its key; absent where it was not measured. */
export function pileFields<Field extends z.ZodType>(field: Field): Record<PileQuantityKey, z.ZodOptional<Field>> {
  const fields = pileQuantities.map((one) => {
    const value = field.optional();
    return [quantityFacts[one].key, one === 'moisture' ? value.describe(volumetric) : value];
  });
  return Object.fromEntries(fields);
}

/** @example pileValues({ co2: { value: 800 } }) // => { co2Ppm: 800 } */
export function pileValues(
  last: Readonly<Partial<Record<Quantity, { readonly value: number }>>>,
): Partial<Record<PileQuantityKey, number>> {
  return Object.fromEntries(
    pileQuantities.flatMap((one) => {
      const measured = last[one];
      return measured === undefined ? [] : [[quantityFacts[one].key, measured.value]];
    }),
  );
}
