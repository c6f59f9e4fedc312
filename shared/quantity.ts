/** What probes can measure, derived from the declarations in `quantities/`. */
import { z } from 'zod';
import { quantityFacts } from './quantities/quantities.ts';
import type { QuantityFacts } from './quantities/quantity-facts.ts';

export { quantityFacts } from './quantities/quantities.ts';

export type Quantity = keyof typeof quantityFacts;

/** In the order of their declaration. */
export const quantities = Object.keys(quantityFacts) as [Quantity, ...Quantity[]];
export const quantitySchema = z.enum(quantities);

const factsOf: Readonly<Record<Quantity, QuantityFacts>> = quantityFacts;

type UnitOf<Q extends Quantity> = keyof (typeof quantityFacts)[Q]['from'];
/** SenML's own names of units that have a plainer one are for payloads. */
type SenmlUnit = 'Cel' | '%EL';
/** Units that a mapping may name. */
export type ForeignUnit = Exclude<{ [Q in Quantity]: UnitOf<Q> }[Quantity], SenmlUnit>;

/** The likeliest first. @example foreignUnitsOf('co2') // => ["ppm", "%"] */
export function foreignUnitsOf(quantity: Quantity): ForeignUnit[] {
  return (Object.keys(quantityFacts[quantity].from) as (ForeignUnit | SenmlUnit)[]).filter(
    (unit) => unit !== 'Cel' && unit !== '%EL',
  );
}

export const foreignUnits = [...new Set(quantities.flatMap(foreignUnitsOf))];

export type PileQuantity = {
  [Q in Quantity]: (typeof quantityFacts)[Q]['isOfPile'] extends true ? Q : never;
}[Quantity];
export type ProbeQuantity = Exclude<Quantity, PileQuantity>;

type KeyOf<Q extends Quantity> = (typeof quantityFacts)[Q]['key'];
export type PileQuantityKey = KeyOf<PileQuantity>;

export const pileQuantities = quantities.filter(isOfPile);
export function isOfPile(quantity: Quantity): quantity is PileQuantity {
  return factsOf[quantity].isOfPile;
}

/** Of the probe itself. */
export const probeQuantities = quantities.filter((one): one is ProbeQuantity => !factsOf[one].isOfPile);

/** What the API tells of a probe in `last`. A battery stands beside that, null where none was ever heard of. */
const lastQuantities = quantities.filter((one): one is LastQuantity => one !== 'battery');
type LastQuantity = Exclude<Quantity, 'battery'>;

/** One value for each quantity of the pile, by its name. */
export function forEachPileQuantity<T>(make: (quantity: PileQuantity) => T): Record<PileQuantity, T> {
  return Object.fromEntries(pileQuantities.map((one) => [one, make(one)])) as Record<PileQuantity, T>;
}

type Fields<Q extends Quantity, Field extends z.ZodType> = Record<KeyOf<Q>, z.ZodOptional<Field>>;

function fieldsOf<Q extends Quantity, Field extends z.ZodType>(of: readonly Q[], field: Field): Fields<Q, Field> {
  const fields = of.map((one) => {
    const { key, described } = factsOf[one];
    const value = field.optional();
    return [key, described === undefined ? value : value.describe(described)];
  });
  return Object.fromEntries(fields);
}

/** Fields of the API that hold what is measured of a pile, each by its key; absent where it was not measured. */
export function pileFields<Field extends z.ZodType>(field: Field): Fields<PileQuantity, Field> {
  return fieldsOf(pileQuantities, field);
}

/** The same with what a probe says of itself. */
export function lastFields<Field extends z.ZodType>(field: Field): Fields<LastQuantity, Field> {
  return fieldsOf(lastQuantities, field);
}

type Last = Readonly<Partial<Record<Quantity, { readonly value: number }>>>;

function valuesOf<Q extends Quantity>(of: readonly Q[], last: Last): Partial<Record<KeyOf<Q>, number>> {
  const values = of.flatMap((one) => {
    const measured = last[one];
    return measured === undefined ? [] : [[factsOf[one].key, measured.value]];
  });
  return Object.fromEntries(values);
}

/** @example pileValues({ co2: { value: 800 } }) // => { co2Ppm: 800 } */
export function pileValues(last: Last): Partial<Record<PileQuantityKey, number>> {
  return valuesOf(pileQuantities, last);
}

export function lastValues(last: Last): Partial<Record<KeyOf<LastQuantity>, number>> {
  return valuesOf(lastQuantities, last);
}
