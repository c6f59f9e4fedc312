/**
 * The ground a heap takes, and the ground it covers when it is used. It never counts sloping edges: a real heap's foot
 * is somewhat larger.
 */
import type { MixAsk, MixFigures } from '../../shared/contracts/plan.ts';
import { message } from '../../shared/messages/message.ts';
import { stageProfiles } from '../../shared/profiles/stages.ts';
import { limitOrigins, stageLimits } from '../../shared/stage.ts';
import { amount, sum } from '../../shared/sum.ts';
import { cautions } from '../profiles/cautions.ts';
import type { Notebook } from './notebook.ts';

export function workOutFootprint(book: Notebook, ask: MixAsk, volumeL: number | null): MixFigures['footprint'] {
  const { stage } = ask;
  if (volumeL === null) return null;
  const depthM =
    ask.depthM ??
    (stage &&
      book.take(message('plan.taken.depth', { stage }), 'depthM', {
        value: stageLimits[stage].depthMaxM,
        origin: limitOrigins[stage].depthMaxM,
      }));
  if (depthM === undefined) return null;
  const { step } = book;
  const quotient = sum`${amount('volumeL', volumeL)} ÷ ${amount('depthM', depthM)}`;
  const areaM2 = step(message('plan.step.ground'), quotient, 'areaM2', volumeL / 1000 / depthM);
  const area = amount('areaM2', areaM2);
  const widthM = ask.widthM ?? step(message('plan.step.side'), sum`√ ${area}`, 'lengthM', Math.sqrt(areaM2));
  const lengthM =
    ask.widthM === undefined
      ? widthM
      : step(message('plan.step.length'), sum`${area} ÷ ${amount('lengthM', widthM)}`, 'lengthM', areaM2 / widthM);
  remarkOnDepth(book, ask, depthM);
  return { depthM, areaM2, widthM, lengthM };
}

function remarkOnDepth(book: Notebook, { stage, airC }: MixAsk, depthM: number): void {
  if (!stage) return;
  const { depthMinM, depthMaxM } = stageLimits[stage];
  const { lowerFromAirC } = stageProfiles[stage];
  const isHot = lowerFromAirC !== null && airC !== undefined && airC >= lowerFromAirC;
  if (depthM > depthMaxM) {
    book.remark('act', message('plan.ground.deeper', { mostCm: depthMaxM * 100, stage }));
    book.cautions.push(cautions.deep);
  } else if (depthM < depthMinM) {
    book.remark('watch', message('plan.ground.shallower', { leastCm: depthMinM * 100, stage }));
  } else if (isHot && depthM > (depthMinM + depthMaxM) / 2) {
    book.remark('watch', message('plan.ground.lower-in-warmth', { leastCm: depthMinM * 100 }));
  }
}

export function workOutSpread(
  { step, remark }: Notebook,
  spread: MixAsk['spread'],
  massKg: number,
  volumeL: number | null,
): MixFigures['spread'] {
  if (!spread) return null;
  const mass = amount('massKg', massKg);
  remark('calm', message('plan.ground.dressing'));
  if (spread.by === 'rate') {
    const areaM2 = step(
      message('plan.step.area'),
      sum`${mass} ÷ ${amount('rateKgM2', spread.rateKgM2)}`,
      'areaM2',
      massKg / spread.rateKgM2,
    );
    if (volumeL === null) return { areaM2, rateKgM2: spread.rateKgM2, depthM: null };
    const thick = sum`${amount('volumeL', volumeL)} ÷ ${amount('areaM2', areaM2)}`;
    const depthM = step(message('plan.step.depth-there'), thick, 'depthM', volumeL / 1000 / areaM2);
    return { areaM2, rateKgM2: spread.rateKgM2, depthM };
  }
  if (volumeL === null) throw new RangeError('Cannot spread by depth as the volume must be known');
  const covers = sum`${amount('volumeL', volumeL)} ÷ ${amount('depthM', spread.depthM)}`;
  const areaM2 = step(message('plan.step.area'), covers, 'areaM2', volumeL / 1000 / spread.depthM);
  const rate = sum`${mass} ÷ ${amount('areaM2', areaM2)}`;
  const rateKgM2 = step(message('plan.step.rate-there'), rate, 'rateKgM2', massKg / areaM2);
  return { areaM2, rateKgM2, depthM: spread.depthM };
}
