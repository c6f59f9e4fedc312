/** What is said about a mix, and what can hurt in making it. */
import type { MixAsk, MixFigures } from '../../shared/contracts/plan.ts';
import { type Message, message, paragraph } from '../../shared/messages/message.ts';
import { materialProfiles } from '../../shared/profiles/materials.ts';
import { limitOrigins, stageLimits } from '../../shared/stage.ts';
import { cautions } from '../profiles/cautions.ts';
import { asMeasured } from './as-measured.ts';
import type { Notebook } from './notebook.ts';
import type { Heap, Portion } from './portion.ts';
import { asGoodAsFrac } from './water-shares.ts';

type Parts = Pick<MixFigures, 'water' | 'footprint' | 'spread'>;

export function sayMix(
  ask: MixAsk,
  portions: readonly Portion[],
  mixed: Heap,
  { water, footprint, spread }: Parts,
): Message {
  return paragraph(
    sayWhatItMakes(ask, portions, mixed),
    water && sayItsWater(water, ask.moistureTarget ?? 0),
    footprint &&
      message('plan.mix.laid', {
        depthCm: footprint.depthM * 100,
        widthM: asMeasured('lengthM', footprint.widthM),
        lengthM: asMeasured('lengthM', footprint.lengthM),
      }),
    spread && message('plan.mix.spread', { rateKgM2: spread.rateKgM2, areaM2: asMeasured('areaM2', spread.areaM2) }),
  );
}

function sayWhatItMakes(ask: MixAsk, portions: readonly Portion[], { massKg, volumeL, moistureFrac }: Heap): Message {
  const made = {
    portionsList: portions.map((portion) =>
      ask.by === 'volume' && portion.volumeL !== null
        ? message('plan.mix.portion-volume', { volumeL: portion.volumeL, materialPart: portion.name })
        : message('plan.mix.portion-mass', { massKg: portion.massKg, materialPart: portion.name }),
    ),
    isOne: portions.length === 1,
    massKg,
    moistureShare: moistureFrac,
  };
  return volumeL === null
    ? message('plan.mix.makes-mass', made)
    : message('plan.mix.makes', { ...made, volumeL: asMeasured('volumeL', volumeL) });
}

function sayItsWater(water: NonNullable<MixFigures['water']>, targetFrac: number): Message {
  const target = { targetShare: targetFrac };
  if (water.verdict === 'enough') return message('plan.mix.enough', target);
  if (water.verdict === 'too-wet') return message('plan.mix.too-wet', target);
  const takes = { ...target, waterL: asMeasured('volumeL', water.waterKg) };
  return water.firstPortionKg === 0
    ? message('plan.mix.water-after-starter', takes)
    : message('plan.mix.water', {
        ...takes,
        firstL: asMeasured('volumeL', water.firstPortionKg),
        hasStarter: water.starterKg > 0,
      });
}

export function remarkOnMoisture(book: Notebook, { stage }: MixAsk, moistureFrac: number): void {
  if (!stage) return;
  const { moistureMinFrac, moistureMaxFrac } = stageLimits[stage];
  const usual = {
    stage,
    fromShare: moistureMinFrac,
    toShare: moistureMaxFrac,
    originPart: limitOrigins[stage].moistureMinFrac,
  };
  if (moistureFrac < moistureMinFrac - asGoodAsFrac) book.remark('watch', message('plan.mix.drier', usual));
  if (moistureFrac > moistureMaxFrac + asGoodAsFrac) book.remark('watch', message('plan.mix.wetter', usual));
}

export function addMixCautions(book: Notebook, ask: MixAsk): void {
  if (ask.materials.some(({ material }) => materialProfiles[material].family === 'bran')) {
    book.cautions.push(cautions.dryBran);
  }
  book.cautions.push(cautions.spores, cautions.shedAir);
  if (ask.spread) book.cautions.push(cautions.using);
}
