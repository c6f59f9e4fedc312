/**
 * The ground a heap takes, and the ground it covers when it is used. It never counts sloping edges: a real heap's foot
 * is somewhat larger.
 */
import type { MixAnswer, MixAsk } from '../../shared/contracts/plan.ts';
import { limitOrigins, stageLimits } from '../../shared/stage.ts';
import { deepCaution } from '../words/cautions.ts';
import type { Notebook } from './notebook.ts';

export function workOutFootprint(book: Notebook, ask: MixAsk, volumeL: number | null): MixAnswer['footprint'] {
  const { stage } = ask;
  if (volumeL === null) return null;
  const depthM =
    ask.depthM ??
    (stage &&
      book.take(`depth allowed in the ${stage} stage`, 'depthM', {
        value: stageLimits[stage].depthMaxM,
        origin: limitOrigins[stage].depthMaxM,
      }));
  if (depthM === undefined) return null;
  const { step, say } = book;
  const area = `${say('volumeL', volumeL)} ÷ ${say('depthM', depthM)}`;
  const areaM2 = step('ground the heap takes', area, 'areaM2', volumeL / 1000 / depthM);
  const widthM = ask.widthM ?? step('side of a square', `√ ${say('areaM2', areaM2)}`, 'lengthM', Math.sqrt(areaM2));
  const lengthM =
    ask.widthM === undefined
      ? widthM
      : step('length', `${say('areaM2', areaM2)} ÷ ${say('lengthM', widthM)}`, 'lengthM', areaM2 / widthM);
  remarkOnDepth(book, ask, depthM);
  return { depthM, areaM2, widthM, lengthM };
}

/** From here on a bed counts as laid in the heat: our own choice, no source. */
const hotAirC = 25;

function remarkOnDepth(book: Notebook, { stage, airC }: MixAsk, depthM: number): void {
  if (!stage) return;
  const { depthMinM, depthMaxM } = stageLimits[stage];
  const { tell } = book;
  if (depthM > depthMaxM) {
    book.remark('act', `Deeper than the ${tell('depthM', depthMaxM)} usual in the ${stage} stage: it may overheat.`);
    book.cautions.push(deepCaution);
  } else if (depthM < depthMinM) {
    book.remark(
      'watch',
      `Shallower than the ${tell('depthM', depthMinM)} usual in the ${stage} stage: it may never warm.`,
    );
  } else if (stage === 'bran' && airC !== undefined && airC >= hotAirC && depthM > (depthMinM + depthMaxM) / 2) {
    book.remark('watch', `In such warmth lay it lower, nearer to ${tell('depthM', depthMinM)}.`);
  }
}

export function workOutSpread(
  { step, say, remark }: Notebook,
  spread: MixAsk['spread'],
  massKg: number,
  volumeL: number | null,
): MixAnswer['spread'] {
  if (!spread) return null;
  const mass = say('massKg', massKg);
  remark(
    'calm',
    'A thin dressing and a mulch can differ fifty times in mass for the same bed: be sure which of the two is meant.',
  );
  if (spread.by === 'rate') {
    const areaM2 = step(
      'area it covers',
      `${mass} ÷ ${say('rateKgM2', spread.rateKgM2)}`,
      'areaM2',
      massKg / spread.rateKgM2,
    );
    if (volumeL === null) return { areaM2, rateKgM2: spread.rateKgM2, depthM: null };
    const thick = `${say('volumeL', volumeL)} ÷ ${say('areaM2', areaM2)}`;
    return { areaM2, rateKgM2: spread.rateKgM2, depthM: step('depth there', thick, 'depthM', volumeL / 1000 / areaM2) };
  }
  if (volumeL === null) throw new RangeError('Cannot spread by depth as the volume must be known');
  const covers = `${say('volumeL', volumeL)} ÷ ${say('depthM', spread.depthM)}`;
  const areaM2 = step('area it covers', covers, 'areaM2', volumeL / 1000 / spread.depthM);
  const rateKgM2 = step('rate there', `${mass} ÷ ${say('areaM2', areaM2)}`, 'rateKgM2', massKg / areaM2);
  return { areaM2, rateKgM2, depthM: spread.depthM };
}
