/**
 * Several materials as one heap, by mass or by volume. It never counts what a heap loses while it works: some dry
 * matter and much water. It is a plan of the day it is laid.
 */
import type { MixAnswer, MixAsk } from '../../shared/contracts/plan.ts';
import { freeAirSpaceFrac } from '../physics/haug.ts';
import { wateringCaution } from '../words/words.ts';
import { workOutAirSpace } from './air-space.ts';
import { planDates, plannedDateView } from './dates.ts';
import { workOutFootprint, workOutSpread } from './ground.ts';
import { freeAirSpaceFloor } from './ingredient-facts.ts';
import { workOutCarbonNitrogen } from './mix-carbon.ts';
import { addMixCautions, remarkOnMoisture, sayMix } from './mix-words.ts';
import { massToReachKg } from './moisture-sums.ts';
import { type Notebook, openNotebook, told } from './notebook.ts';
import { type Heap, heapOf, type Portion, timesPortion, workOutPortion } from './portion.ts';
import { workOutTimes } from './wanted.ts';
import { workOutWater } from './water-shares.ts';

export function planMix(ask: MixAsk): MixAnswer {
  const book = openNotebook(ask.units);
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
  if (water?.verdict === 'add') book.cautions.push(wateringCaution);
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
    ...told(book, sayMix(book, ask, portions, mixed, { water, footprint, spread })),
  };
}

/** Starter and water of the recipe as it was asked for, before it is fitted to what is wanted. */
function liquidKgOf({ moistureTarget, starterL = 0 }: MixAsk, { massKg, moistureFrac }: Heap): number {
  if (moistureTarget === undefined) return starterL;
  return Math.max(starterL, massToReachKg(massKg, moistureFrac, 1, moistureTarget) ?? 0);
}

function workOutMixed(book: Notebook, portions: readonly Portion[]): Heap {
  const mixed = heapOf(portions);
  const { say } = book;
  const masses = portions.map(({ massKg }) => say('massKg', massKg));
  const waters = portions.map(({ massKg, moistureFrac }) => `${say('massKg', massKg)} × ${say('share', moistureFrac)}`);
  book.step('mass of the mix', masses.join(' + '), 'massKg', mixed.massKg);
  book.step(
    'moisture of the mix',
    `(${waters.join(' + ')}) ÷ ${say('massKg', mixed.massKg)}`,
    'share',
    mixed.moistureFrac,
  );
  if (mixed.volumeL !== null) {
    const volumes = portions.map(({ volumeL }) => say('volumeL', volumeL ?? 0));
    book.step('volume of the mix, nothing settled', volumes.join(' + '), 'volumeL', mixed.volumeL);
  }
  return mixed;
}

/** The heap with its liquid: that fills pores, so the volume stays. */
function workOutLaid(book: Notebook, portions: readonly Portion[], mixed: Heap, liquidKg: number): MixAnswer['laid'] {
  const { say } = book;
  const massKg = mixed.massKg + liquidKg;
  const moisture = (mixed.massKg * mixed.moistureFrac + liquidKg) / massKg;
  if (liquidKg > 0) {
    const [mass, liquid] = [say('massKg', mixed.massKg), say('massKg', liquidKg)];
    book.step('mass as laid', `${mass} + ${liquid}`, 'massKg', massKg);
    const sum = `(${mass} × ${say('share', mixed.moistureFrac)} + ${liquid}) ÷ ${say('massKg', massKg)}`;
    book.step('moisture as laid', sum, 'share', moisture);
  }
  const { volumeL } = mixed;
  if (volumeL === null) {
    book.remark(
      'watch',
      'Its volume and air space are not known: weigh 10 L of each material and say its bulk density.',
    );
    return { massKg, volumeL, moisture, freeAirSpace: null };
  }
  const dryKgM3 = book.step(
    'dry matter in a volume of the mix',
    `(${say('massKg', massKg)} × (100 % − ${say('share', moisture)})) ÷ ${say('volumeL', volumeL)}`,
    'densityKgM3',
    (mixed.dryKg / volumeL) * 1000,
  );
  for (const { name, particleDensity } of portions)
    book.take(`particle density of ${name}`, 'densityKgM3', particleDensity);
  const { freeAirSpace } = workOutAirSpace(book, dryKgM3, mixed.particleKgM3, moisture);
  return { massKg, volumeL, moisture, freeAirSpace };
}

function airOf({ dryKg, volumeL, particleKgM3 }: Heap, moistureFrac: number): number | null {
  return volumeL === null ? null : freeAirSpaceFrac((dryKg / volumeL) * 1000, moistureFrac, particleKgM3);
}

function datesOf({ startAt, stage, airC, units }: MixAsk): MixAnswer['dates'] {
  if (startAt === undefined || stage === undefined) return [];
  const dates = planDates({ startMs: startAt, stage, airC, inFahrenheit: units.temperature === 'F' });
  return dates.map(plannedDateView);
}
