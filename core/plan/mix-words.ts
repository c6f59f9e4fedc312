/** What is said about a mix, and what can hurt in making it. */
import type { MixAnswer, MixAsk } from '../../shared/contracts/plan.ts';
import { stageLimits } from '../../shared/stage.ts';
import { dryBranCaution, mixingCaution, shedCaution, usingCaution } from '../words/cautions.ts';
import type { Notebook } from './notebook.ts';
import type { Heap, Portion } from './portion.ts';
import { capital } from './water-words.ts';

type Parts = Pick<MixAnswer, 'water' | 'footprint' | 'spread'>;

export function sayMix(
  { tell }: Notebook,
  ask: MixAsk,
  portions: readonly Portion[],
  mixed: Heap,
  { water, footprint, spread }: Parts,
): string {
  const sizes = portions.map(({ name, massKg, volumeL }) =>
    ask.by === 'volume' && volumeL !== null
      ? `${tell('volumeL', volumeL)} of ${name}`
      : `${tell('massKg', massKg)} of ${name}`,
  );
  const volume = mixed.volumeL === null ? '' : `, about ${tell('volumeL', mixed.volumeL)},`;
  const makes = portions.length > 1 ? 'together make' : 'is';
  const sentences = [
    `${capital(listed(sizes))} ${makes} ${tell('massKg', mixed.massKg)}${volume} at ${tell('share', mixed.moistureFrac)} moisture.`,
  ];
  if (water) sentences.push(sayItsWater(tell, water, ask.moistureTarget ?? 0));
  if (footprint) {
    sentences.push(
      `Laid ${tell('depthM', footprint.depthM)} deep it takes ${tell('lengthM', footprint.widthM)} by ${tell('lengthM', footprint.lengthM)}.`,
    );
  }
  if (spread)
    sentences.push(`Spread at ${tell('rateKgM2', spread.rateKgM2)} it covers ${tell('areaM2', spread.areaM2)}.`);
  return sentences.join(' ');
}

function sayItsWater(tell: Notebook['tell'], water: NonNullable<MixAnswer['water']>, targetFrac: number): string {
  const target = tell('share', targetFrac);
  const starter = water.starterKg === 0 ? '' : ' besides the starter';
  if (water.verdict === 'enough') return `It is at ${target} without more water.`;
  if (water.verdict === 'too-wet') return `That is wetter than ${target}: give no water, mix in something drier.`;
  const first = water.firstPortionKg === 0 ? 'the starter' : tell('volumeL', water.firstPortionKg);
  return `It takes ${tell('volumeL', water.waterKg)} of water${starter} to reach ${target}: ${first} first, the rest after a squeeze test.`;
}

function listed(parts: readonly string[]): string {
  if (parts.length < 2) return parts.join('');
  return `${parts.slice(0, -1).join(', ')} and ${parts.at(-1)}`;
}

export function remarkOnMoisture(book: Notebook, ask: MixAsk, moistureFrac: number): void {
  if (!ask.stage) return;
  const { moistureMinFrac, moistureMaxFrac } = stageLimits[ask.stage];
  const usual = `${book.tell('share', moistureMinFrac)} to ${book.tell('share', moistureMaxFrac)} usual in the ${ask.stage} stage (common practice, no source)`;
  if (moistureFrac < moistureMinFrac - 0.005) book.remark('watch', `Laid so it is drier than the ${usual}.`);
  if (moistureFrac > moistureMaxFrac + 0.005) book.remark('watch', `Laid so it is wetter than the ${usual}.`);
}

export function addMixCautions(book: Notebook, ask: MixAsk): void {
  const { cautions } = book;
  if (ask.materials.some(({ material }) => material.endsWith('-bran'))) cautions.push(dryBranCaution);
  cautions.push(mixingCaution, shedCaution);
  if (ask.spread) cautions.push(usingCaution);
}
