/**
 * Several materials as one heap, by mass or by volume. It never counts what a heap loses while it works: some dry
 * matter and much water. It is a plan of the day it is laid.
 */
import type { MixAsk, MixFigures } from '../../shared/contracts/plan.ts';
import { type Message, message } from '../../shared/messages/message.ts';
import { amount, joined, sum } from '../../shared/sum.ts';
import { freeAirSpaceFrac } from '../physics/haug.ts';
import { cautions } from '../profiles/cautions.ts';
import { workOutAirSpace } from './air-space.ts';
import { type PlannedDate, planDates } from './dates.ts';
import { workOutFootprint, workOutSpread } from './ground.ts';
import { workOutCarbonNitrogen } from './mix-carbon.ts';
import { addMixCautions, remarkOnMoisture, sayMix } from './mix-words.ts';
import { massToReachKg } from './moisture-sums.ts';
import { type Notebook, openNotebook, type Written } from './notebook.ts';
import { freeAirSpaceFloor } from './plan-facts.ts';
import { type Heap, heapOf, type Portion, timesPortion, workOutPortion } from './portion.ts';
import { workOutTimes } from './wanted.ts';
import { workOutWater } from './water-shares.ts';

export interface MixPlan extends MixFigures, Written {
  readonly materials: (MixFigures['materials'][number] & { readonly name: Message })[];
  readonly dates: readonly PlannedDate[];
}

export function planMix(ask: MixAsk): MixPlan {
  const book = openNotebook();
  const recipe = ask.materials.map((given) => workOutPortion(book, given));
  const once = heapOf(recipe);
  const times = workOutTimes(book, ask, once.massKg + liquidKgOf(ask, once), once.volumeL);
  const portions = recipe.map((portion) => timesPortion(portion, times));
  const mixed = workOutMixed(book, portions);
  const carbonNitrogen = workOutCarbonNitrogen(book, portions);

  const starterL = (ask.starterL ?? 0) * times;
  const water =
    ask.moistureTarget === undefined
      ? null
      : workOutWater(book, mixed.massKg, mixed.moistureFrac, ask.moistureTarget, starterL);
  const laid = workOutLaid(book, portions, mixed, water === null ? starterL : water.waterKg + water.starterKg);
  remarkOnMoisture(book, ask, laid.moisture);
  const footprint = workOutFootprint(book, ask, laid.volumeL);
  const spread = workOutSpread(book, ask.spread, laid.massKg, laid.volumeL);
  if (water?.verdict === 'add') book.cautions.push(cautions.watering);
  addMixCautions(book, ask);
  return {
    by: ask.by,
    times,
    materials: portions.map(({ material, name, massKg, volumeL, moistureFrac, dryKg }) => ({
      material,
      name,
      massKg,
      volumeL,
      moisture: moistureFrac,
      dryKg,
      waterKg: massKg - dryKg,
    })),
    massKg: mixed.massKg,
    volumeL: mixed.volumeL,
    moisture: mixed.moistureFrac,
    freeAirSpace: airOf(mixed, mixed.moistureFrac),
    carbonNitrogen,
    water,
    laid,
    freeAirSpaceFloor: freeAirSpaceFloor.value,
    footprint,
    spread,
    dates: datesOf(ask),
    ...book.written(sayMix(ask, portions, mixed, { water, footprint, spread })),
  };
}

/** Starter and water of the recipe as it was asked for, before it is fitted to what is wanted. */
function liquidKgOf({ moistureTarget, starterL = 0 }: MixAsk, { massKg, moistureFrac }: Heap): number {
  if (moistureTarget === undefined) return starterL;
  return Math.max(starterL, massToReachKg(massKg, moistureFrac, 1, moistureTarget) ?? 0);
}

function workOutMixed(book: Notebook, portions: readonly Portion[]): Heap {
  const mixed = heapOf(portions);
  const masses = portions.map(({ massKg }) => amount('massKg', massKg));
  const waters = portions.map(
    ({ massKg, moistureFrac }) => sum`${amount('massKg', massKg)} × ${amount('share', moistureFrac)}`,
  );
  book.step(message('plan.step.mix-mass'), joined(masses, ' + '), 'massKg', mixed.massKg);
  const quotient = sum`(${joined(waters, ' + ')}) ÷ ${amount('massKg', mixed.massKg)}`;
  book.step(message('plan.step.mix-moisture'), quotient, 'share', mixed.moistureFrac);
  if (mixed.volumeL !== null) {
    const volumes = portions.map(({ volumeL }) => amount('volumeL', volumeL ?? 0));
    book.step(message('plan.step.mix-volume'), joined(volumes, ' + '), 'volumeL', mixed.volumeL);
  }
  return mixed;
}

/** The heap with its liquid: that fills pores, so the volume stays. */
function workOutLaid(book: Notebook, portions: readonly Portion[], mixed: Heap, liquidKg: number): MixFigures['laid'] {
  const massKg = mixed.massKg + liquidKg;
  const moisture = (mixed.massKg * mixed.moistureFrac + liquidKg) / massKg;
  if (liquidKg > 0) {
    const [mass, liquid] = [amount('massKg', mixed.massKg), amount('massKg', liquidKg)];
    book.step(message('plan.step.laid-mass'), sum`${mass} + ${liquid}`, 'massKg', massKg);
    const share = amount('share', mixed.moistureFrac);
    const quotient = sum`(${mass} × ${share} + ${liquid}) ÷ ${amount('massKg', massKg)}`;
    book.step(message('plan.step.laid-moisture'), quotient, 'share', moisture);
  }
  const { volumeL } = mixed;
  if (volumeL === null) {
    book.remark('watch', message('plan.air.mix-not-known'));
    return { massKg, volumeL, moisture, freeAirSpace: null };
  }
  const dryKgM3 = book.step(
    message('plan.step.mix-dry-density'),
    sum`(${amount('massKg', massKg)} × (100 % − ${amount('share', moisture)})) ÷ ${amount('volumeL', volumeL)}`,
    'densityKgM3',
    (mixed.dryKg / volumeL) * 1000,
  );
  for (const { name, particleDensity } of portions)
    book.take(message('plan.taken.particle-density', { materialPart: name }), 'densityKgM3', particleDensity);
  const { freeAirSpace } = workOutAirSpace(book, dryKgM3, mixed.particleKgM3, moisture);
  return { massKg, volumeL, moisture, freeAirSpace };
}

function airOf({ dryKg, volumeL, particleKgM3 }: Heap, moistureFrac: number): number | null {
  return volumeL === null ? null : freeAirSpaceFrac((dryKg / volumeL) * 1000, moistureFrac, particleKgM3);
}

function datesOf({ startAt, stage, airC }: MixAsk): PlannedDate[] {
  return startAt === undefined || stage === undefined ? [] : planDates({ startMs: startAt, stage, airC });
}
