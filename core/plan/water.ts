/**
 * Water for one material, from the moisture it has to the moisture it should have. It never tells a target without its
 * air: coarse and fine bran bear different moistures.
 */
import type { WaterAsk, WaterFigures } from '../../shared/contracts/plan.ts';
import { type Message, message } from '../../shared/messages/message.ts';
import type { Fact } from '../../shared/profiles/materials.ts';
import { amount, sum } from '../../shared/sum.ts';
import { cautions } from '../profiles/cautions.ts';
import { workOutAirSpace } from './air-space.ts';
import { dryDensityKgM3Of, takeMoisture } from './dry-density.ts';
import { massToReachKg, mixedMoisture } from './moisture-sums.ts';
import { type Notebook, openNotebook, type Written } from './notebook.ts';
import { freeAirSpaceFloor, type IngredientFacts, ingredientFacts } from './plan-facts.ts';
import { workOutWater } from './water-shares.ts';
import { remarkOnTarget, sayMeant, sayWater } from './water-words.ts';

export interface WaterPlan extends WaterFigures, Written {
  readonly usual: IngredientFacts['usual'];
  readonly meant?: { readonly moisture: number; readonly says: Message };
}

export function planWater(ask: WaterAsk): WaterPlan {
  const { materialKg, starterL = 0 } = ask;
  const book = openNotebook();
  const facts = ingredientFacts(ask.material ?? 'wheat-bran');
  const { name, stored } = facts;
  if (ask.material === undefined) book.remark('calm', message('plan.water.taken-as', { materialPart: name }));
  const moistureNow = ask.moistureNow ?? takeMoisture(book, name, known('moistureNow', stored?.moistureFrac));
  const targetFrac =
    ask.moistureTarget ??
    book.take(message('plan.taken.target', { materialPart: name }), 'share', known('moistureTarget', facts.targetFrac));

  const shares = workOutWater(book, materialKg, moistureNow, targetFrac, starterL);
  const liquidKg = shares.waterKg + shares.starterKg;
  const moistureAfter = workOutMoisture(book, message('plan.step.wetted'), materialKg, moistureNow, liquidKg);
  remarkOnTarget(book, facts, targetFrac);
  const air = airOf(book, ask, facts, moistureNow, moistureAfter);
  const massAfterKg = materialKg + liquidKg;
  const drierKg = shares.verdict === 'too-wet' ? drierMass(book, facts, massAfterKg, moistureAfter, targetFrac) : null;
  if (shares.verdict === 'add') book.cautions.push(cautions.watering);
  if (facts.family === 'bran') book.cautions.push(cautions.dryBran);
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
    ...book.written(sayWater(name, { isSoil: facts.family === 'soil', shares, targetFrac, moistureAfter, drierKg })),
  };
}

/** The schema refuses a request for which there is neither a figure nor a default. */
function known(what: keyof WaterAsk, fact: Fact | null | undefined): Fact {
  if (!fact) throw new RangeError(`Cannot plan without ${what} as no default is known`);
  return fact;
}

function workOutMoisture(
  { step }: Notebook,
  what: Message,
  massKg: number,
  moistureFrac: number,
  liquidKg: number,
): number {
  const [mass, liquid] = [amount('massKg', massKg), amount('massKg', liquidKg)];
  const after = mixedMoisture([
    { massKg, moistureFrac },
    { massKg: liquidKg, moistureFrac: 1 },
  ]);
  if (liquidKg === 0) return after;
  const quotient = sum`(${mass} × ${amount('share', moistureFrac)} + ${liquid}) ÷ (${mass} + ${liquid})`;
  return step(what, quotient, 'share', after);
}

function airOf(book: Notebook, ask: WaterAsk, facts: IngredientFacts, moistureNow: number, moistureAfter: number) {
  const dryKgM3 = dryDensityKgM3Of(book, facts, moistureNow, ask.bulkDensityKgM3);
  if (dryKgM3 === null) {
    book.remark('watch', message('plan.air.not-known'));
    return { freeAirSpace: null, wettestForAir: null };
  }
  const particleKgM3 = book.take(
    message('plan.taken.particle-density', { materialPart: facts.name }),
    'densityKgM3',
    facts.particleDensityKgM3,
  );
  return workOutAirSpace(book, dryKgM3, particleKgM3, moistureAfter);
}

function drierMass(
  book: Notebook,
  { name, stored }: IngredientFacts,
  massKg: number,
  moistureAfter: number,
  targetFrac: number,
): number | null {
  if (!stored) return null;
  const dryFrac = takeMoisture(book, name, stored.moistureFrac);
  const drierKg = massToReachKg(massKg, moistureAfter, dryFrac, targetFrac);
  if (drierKg === undefined) return null;
  const [mass, after] = [amount('massKg', massKg), amount('share', moistureAfter)];
  const target = amount('share', targetFrac);
  const quotient = sum`${mass} × (${after} − ${target}) ÷ (${target} − ${amount('share', dryFrac)})`;
  return book.step(message('plan.step.drier', { materialPart: name }), quotient, 'massKg', drierKg);
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
  const moisture = workOutMoisture(book, message('plan.step.meant'), materialKg, moistureNow, meantKg);
  const missingKg = (massToReachKg(materialKg, moistureNow, 1, targetFrac) ?? 0) - meantKg;
  const says = sayMeant(facts, meantKg, moisture, missingKg);
  const usual = moisture >= facts.usual.fromFrac && moisture <= facts.usual.toFrac;
  book.remark(usual ? 'calm' : 'watch', says);
  return { moisture, says };
}
