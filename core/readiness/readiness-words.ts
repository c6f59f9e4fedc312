/**
 * What nose and eyes should look for, and what probes and person together come to.
 *
 * Sources of the signs: extension bulletins and practice, read second-hand (white growth good; black, green and bright
 * colours discarded); sour, rotten and ammonia smells as signs of too wet or airless are common practice, no source.
 */
import type { Stage } from '../../shared/names.ts';
import { mixingCaution, shedCaution, usingCaution } from '../words/cautions.ts';
import type { HeatSign } from './heat-signs.ts';
import { judgedWords, nobodyJudged, type SmellAndLook } from './smell-and-look.ts';

const goodBran = [
  'White threads all through the bran, holding it in soft clods.',
  'A sweet, bready or earthy smell.',
  'A handful holds together when squeezed and falls apart when poked.',
];
const goodSoil = [
  'White threads between the crumbs, most under the cover.',
  'The smell of a wood floor after rain.',
  'It crumbles in the hand and stays cool after a turn.',
];
const bad = [
  'Black, green or bright orange patches: take them out with a good margin, and give the batch up where they are many.',
  'A rotten or sour smell, or one that stings like ammonia: too wet, too deep, or short of air.',
  'Slime, or water that runs out when squeezed.',
  'Maggots, or flies coming out of it.',
];

export const readinessCautions = [
  'Do not put your nose into a mouldy heap: hold a handful at arm’s length in the open and wave its smell towards you.',
  mixingCaution,
  shedCaution,
  usingCaution,
] as const;

export function readinessWords(stage: Stage): { good: string[]; bad: string[]; cautions: string[] } {
  return { good: stage === 'bran' ? goodBran : goodSoil, bad, cautions: [...readinessCautions] };
}

/** A person's own word; null before any. */
export type PersonsWord = { readonly ready: boolean } | null;

/**
 * One sentence from both. Only a person's yes is a yes, and what the probes saw otherwise stays said.
 *
 * @param isSpoilt Something bad was noted since that word.
 * @param isHeatJudged Whoever gave that word had smelt or looked since it was too hot: then that alone does not speak against it.
 */
export function sayReadiness(
  signs: readonly HeatSign[],
  person: PersonsWord,
  judged: SmellAndLook = nobodyJudged,
  isSpoilt = false,
  isHeatJudged = false,
): string {
  const against = signs.filter(({ evidence }) => evidence === 'absent').length;
  const missing = signs.filter(({ evidence }) => evidence === 'missing').length;
  const heat =
    against > 0
      ? 'the heat measured speaks against it'
      : missing > 0
        ? 'not all signs of heat were measured'
        : 'its heat came and went as it should';
  if (isSpoilt)
    return `Something bad was noted since a person last said whether it is ready. ${judgedWords(judged).slice(0, -1)}; ${heat}.`;
  const isJudged = judged.smell !== null || judged.look !== null;
  if (person === null && isJudged)
    return `${judgedWords(judged)} Nobody has said whether it is ready, and probes alone never do; ${heat}.`;
  if (person === null) return `Nobody has smelt and looked yet, and probes alone never say that it is ready; ${heat}.`;
  if (!person.ready) return `The person who smelt and looked did not find it ready; ${heat}.`;
  const isOverheated = signs.some(({ sign, evidence }) => sign === 'not-overheated' && evidence === 'absent');
  if (isOverheated && isHeatJudged && against === 1)
    return 'A person found it ready by smell and look, after it had been too hot for its culture.';
  return against > 0
    ? 'A person found it ready by smell and look, but the heat measured speaks against it: look again before you use it.'
    : `A person found it ready by smell and look; ${heat}.`;
}
