/**
 * Water for one material, from the moisture it has to the moisture it should have. It never tells a target without its
 * air: coarse and fine bran bear different moistures.
 */
import type { WaterAnswer, WaterAsk } from '../../shared/contracts/plan.ts';
import { dryBranCaution } from '../words/cautions.ts';
import { wateringCaution } from '../words/words.ts';
import { workOutAirSpace } from './air-space.ts';
import { dryDensityKgM3Of } from './dry-density.ts';
import { freeAirSpaceFloor, type IngredientFacts, ingredientFacts } from './ingredient-facts.ts';
import { massToReachKg, mixedMoisture } from './moisture-sums.ts';
import { type Fact, type Notebook, openNotebook, told } from './notebook.ts';
import { workOutWater } from './water-shares.ts';
import { remarkOnTarget, sayMeant, sayWater } from './water-words.ts';

export function planWater(ask: WaterAsk): WaterAnswer {
  const { materialKg, starterL = 0 } = ask;
  const book = openNotebook(ask.units);
  const material = ask.material ?? 'wheat-bran';
  const facts = ingredientFacts[material];
  if (ask.material === undefined) book.remark('calm', 'Taken as wheat bran, as no material was named.');
  const moistureNow = ask.moistureNow ?? takeShare(book, `moisture of ${facts.name} as stored`, facts.moistureFrac);
  const targetFrac = ask.moistureTarget ?? takeShare(book, `moisture wanted in ${facts.name}`, facts.targetFrac);

  const shares = workOutWater(book, materialKg, moistureNow, targetFrac, starterL);
  const liquidKg = shares.waterKg + shares.starterKg;
  const moistureAfter = workOutMoisture(book, 'moisture once wetted', materialKg, moistureNow, liquidKg);
  remarkOnTarget(book, facts, targetFrac);
  const air = airOf(book, ask, facts, moistureNow, moistureAfter);
  const massAfterKg = materialKg + liquidKg;
  const drierKg = shares.verdict === 'too-wet' ? drierMass(book, facts, massAfterKg, moistureAfter, targetFrac) : null;
  if (shares.verdict === 'add') book.cautions.push(wateringCaution);
  if (material === 'wheat-bran' || material === 'rice-bran') book.cautions.push(dryBranCaution);
  return {
    ...shares,
    massAfterKg,
    moistureAfter,
    ...air,
    freeAirSpaceFloor: freeAirSpaceFloor.value,
    usual: facts.usual,
    drierKg,
    ...(ask.waterMeantL !== undefined && {
      meant: judgeMeant(book, ask, ask.waterMeantL, facts, moistureNow, targetFrac),
    }),
    ...told(book, sayWater(book, facts.name, { shares, targetFrac, moistureAfter, drierKg })),
  };
}

/** The schema refuses a request for which there is neither a figure nor a default. */
function takeShare(book: Notebook, what: string, fact: Fact | null): number {
  if (!fact) throw new RangeError(`Cannot plan without the ${what} as no default is known`);
  return book.take(what, 'share', fact);
}

function workOutMoisture(
  { step, say }: Notebook,
  what: string,
  massKg: number,
  moistureFrac: number,
  liquidKg: number,
): number {
  const [mass, liquid] = [say('massKg', massKg), say('massKg', liquidKg)];
  const after = mixedMoisture([
    { massKg, moistureFrac },
    { massKg: liquidKg, moistureFrac: 1 },
  ]);
  if (liquidKg === 0) return after;
  return step(what, `(${mass} × ${say('share', moistureFrac)} + ${liquid}) ÷ (${mass} + ${liquid})`, 'share', after);
}

function airOf(book: Notebook, ask: WaterAsk, facts: IngredientFacts, moistureNow: number, moistureAfter: number) {
  const dryKgM3 = dryDensityKgM3Of(book, facts, moistureNow, ask.bulkDensityKgM3);
  if (dryKgM3 === null) {
    book.remark('watch', 'Its free air space is not known: weigh 10 L of it and say its bulk density.');
    return { freeAirSpace: null, wettestForAir: null };
  }
  const particleKgM3 = book.take(`particle density of ${facts.name}`, 'densityKgM3', facts.particleDensityKgM3);
  return workOutAirSpace(book, dryKgM3, particleKgM3, moistureAfter);
}

function drierMass(
  book: Notebook,
  { name, moistureFrac }: IngredientFacts,
  massKg: number,
  moistureAfter: number,
  targetFrac: number,
): number | null {
  if (!moistureFrac) return null;
  const dry = book.take(`moisture of ${name} as stored`, 'share', moistureFrac);
  const drierKg = massToReachKg(massKg, moistureAfter, dry, targetFrac);
  if (drierKg === undefined) return null;
  const [mass, after, target] = [
    book.say('massKg', massKg),
    book.say('share', moistureAfter),
    book.say('share', targetFrac),
  ];
  const sum = `${mass} × (${after} − ${target}) ÷ (${target} − ${book.say('share', dry)})`;
  return book.step(`dry ${name} that would bring it to the target`, sum, 'massKg', drierKg);
}

function judgeMeant(
  book: Notebook,
  { materialKg, starterL = 0 }: WaterAsk,
  waterMeantL: number,
  facts: IngredientFacts,
  moistureNow: number,
  targetFrac: number,
) {
  const meantKg = waterMeantL + starterL;
  const moisture = workOutMoisture(book, 'moisture with the water meant', materialKg, moistureNow, meantKg);
  const missingKg = (massToReachKg(materialKg, moistureNow, 1, targetFrac) ?? 0) - meantKg;
  const says = sayMeant(book, facts, meantKg, moisture, missingKg);
  const usual = moisture >= facts.usual.fromFrac && moisture <= facts.usual.toFrac;
  book.remark(usual ? 'calm' : 'watch', says);
  return { moisture, says };
}
