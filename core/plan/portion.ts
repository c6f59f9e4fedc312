/** One material of a mix, with what was said of it and what had to be taken for it. */
import type { MixAsk } from '../../shared/contracts/plan.ts';
import { type Message, message, verbatim } from '../../shared/messages/message.ts';
import type { Ingredient } from '../../shared/profiles/material-names.ts';
import type { Fact } from '../../shared/profiles/materials.ts';
import { amount, sum } from '../../shared/sum.ts';
import { dryDensityKgM3Of, takeMoisture } from './dry-density.ts';
import type { Notebook } from './notebook.ts';
import { ingredientFacts } from './plan-facts.ts';

export interface Portion {
  readonly material: Ingredient;
  readonly name: Message;
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
  readonly origin: Message | null;
}

export function workOutPortion(book: Notebook, given: MixAsk['materials'][number]): Portion {
  const facts = {
    ...ingredientFacts(given.material),
    ...(given.name !== undefined && { name: verbatim(given.name) }),
  };
  const { name, stored } = facts;
  const moistureFrac = given.moisture ?? (stored && takeMoisture(book, name, stored.moistureFrac));
  if (moistureFrac === null) throw new RangeError(`Cannot mix "${given.material}" as its moisture must be known`);
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
  { step }: Notebook,
  name: Message,
  given: MixAsk['materials'][number],
  moistureFrac: number,
  dryKgM3: number | null,
) {
  const wet = sum`(100 % − ${amount('share', moistureFrac)})`;
  if ('massKg' in given) {
    const { massKg } = given;
    if (dryKgM3 === null) return { massKg, volumeL: null };
    const quotient = sum`${amount('massKg', massKg)} × ${wet} ÷ ${amount('densityKgM3', dryKgM3)}`;
    const volume = message('plan.step.volume', { materialPart: name });
    return { massKg, volumeL: step(volume, quotient, 'volumeL', ((massKg * (1 - moistureFrac)) / dryKgM3) * 1000) };
  }
  if (dryKgM3 === null)
    throw new RangeError(`Cannot mix "${given.material}" by volume as its bulk density must be known`);
  const { volumeL } = given;
  const quotient = sum`${amount('volumeL', volumeL)} × ${amount('densityKgM3', dryKgM3)} ÷ ${wet}`;
  const mass = message('plan.step.mass', { materialPart: name });
  return { volumeL, massKg: step(mass, quotient, 'massKg', ((volumeL / 1000) * dryKgM3) / (1 - moistureFrac)) };
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
