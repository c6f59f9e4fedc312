/** One material of a mix, with what was said of it and what had to be taken for it. */
import type { Ingredient, MixAsk } from '../../shared/contracts/plan.ts';
import { dryDensityKgM3Of } from './dry-density.ts';
import { ingredientFacts } from './ingredient-facts.ts';
import type { Fact, Notebook } from './notebook.ts';

export interface Portion {
  readonly material: Ingredient;
  readonly name: string;
  readonly massKg: number;
  readonly volumeL: number | null;
  readonly moistureFrac: number;
  readonly dryKg: number;
  readonly particleDensity: Fact;
  /** Of the dry matter; null where not known. */
  readonly carbon: Known | null;
  readonly nitrogen: Known | null;
}

/** A default while it is not yet used, or, without an origin, what the grower said. */
export interface Known {
  readonly value: number;
  readonly origin: string | null;
}

export function workOutPortion(book: Notebook, given: MixAsk['materials'][number]): Portion {
  const facts = { ...ingredientFacts[given.material], ...(given.name !== undefined && { name: given.name }) };
  const { name } = facts;
  const moistureFrac =
    given.moisture ?? (facts.moistureFrac && book.take(`moisture of ${name} as stored`, 'share', facts.moistureFrac));
  if (moistureFrac === null) throw new RangeError(`Cannot mix ${name} as its moisture must be known`);
  const dryKgM3 = dryDensityKgM3Of(book, facts, moistureFrac, given.bulkDensityKgM3);
  const { massKg, volumeL } = sizeOf(book, name, given, moistureFrac, dryKgM3);
  return {
    material: given.material,
    name,
    massKg,
    volumeL,
    moistureFrac,
    dryKg: massKg * (1 - moistureFrac),
    particleDensity: facts.particleDensityKgM3,
    carbon: given.carbonFrac === undefined ? facts.carbonFrac : { value: given.carbonFrac, origin: null },
    nitrogen: given.nitrogenFrac === undefined ? facts.nitrogenFrac : { value: given.nitrogenFrac, origin: null },
  };
}

function sizeOf(
  { step, say }: Notebook,
  name: string,
  given: MixAsk['materials'][number],
  moistureFrac: number,
  dryKgM3: number | null,
) {
  const wet = `(100 % − ${say('share', moistureFrac)})`;
  if ('massKg' in given) {
    const { massKg } = given;
    if (dryKgM3 === null) return { massKg, volumeL: null };
    const sum = `${say('massKg', massKg)} × ${wet} ÷ ${say('densityKgM3', dryKgM3)}`;
    return {
      massKg,
      volumeL: step(`volume of ${name}`, sum, 'volumeL', ((massKg * (1 - moistureFrac)) / dryKgM3) * 1000),
    };
  }
  if (dryKgM3 === null) throw new RangeError(`Cannot mix ${name} by volume as its bulk density must be known`);
  const { volumeL } = given;
  const sum = `${say('volumeL', volumeL)} × ${say('densityKgM3', dryKgM3)} ÷ ${wet}`;
  return { volumeL, massKg: step(`mass of ${name}`, sum, 'massKg', ((volumeL / 1000) * dryKgM3) / (1 - moistureFrac)) };
}

/** The same portion, so many times. */
export function timesPortion(portion: Portion, times: number): Portion {
  return {
    ...portion,
    massKg: portion.massKg * times,
    volumeL: portion.volumeL === null ? null : portion.volumeL * times,
    dryKg: portion.dryKg * times,
  };
}

export interface Heap {
  readonly massKg: number;
  readonly volumeL: number | null;
  readonly moistureFrac: number;
  readonly dryKg: number;
  /** Of the solids together [kg m⁻³]. */
  readonly particleKgM3: number;
}

/**
 * All portions as one heap.
 *
 * @remarks Volumes are added: fine stuff that fills the gaps of coarse stuff, and settling, are not counted, so a real
 * heap is somewhat smaller and closer.
 */
export function heapOf(portions: readonly Portion[]): Heap {
  const sum = (of: (portion: Portion) => number) => portions.reduce((total, portion) => total + of(portion), 0);
  const massKg = sum((portion) => portion.massKg);
  const dryKg = sum((portion) => portion.dryKg);
  return {
    massKg,
    dryKg,
    moistureFrac: sum((portion) => portion.massKg * portion.moistureFrac) / massKg,
    volumeL: portions.some((portion) => portion.volumeL === null) ? null : sum((portion) => portion.volumeL ?? 0),
    particleKgM3: dryKg / sum((portion) => portion.dryKg / portion.particleDensity.value),
  };
}
