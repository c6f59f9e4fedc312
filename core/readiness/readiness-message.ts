/** What nose and eyes should look for, and what probes and person together come to. */
import { type Message, message } from '../../shared/messages/message.ts';
import type { Stage } from '../../shared/names.ts';
import { cautions } from '../profiles/cautions.ts';
import type { HeatSign } from './heat-signs.ts';
import { judgedMessage, nobodyJudged, type SmellAndLook } from './smell-and-look.ts';

export interface LookFor {
  readonly good: readonly Message[];
  readonly bad: readonly Message[];
  readonly cautions: readonly Message[];
}

/** Of the work that answers the question; in the order in which they are read. */
export const readinessCautions = [cautions.smelling, cautions.spores, cautions.shedAir, cautions.using] as const;

const bad = [
  message('readiness.bad.colours'),
  message('readiness.bad.smell'),
  message('readiness.bad.wet'),
  message('readiness.bad.pests'),
];

/**
 * What to look, smell and feel for. White growth good, black, green and bright colours discarded: extension bulletins and
 * practice, read second-hand. Sour, rotten and ammonia smells as signs of too wet or airless: common practice, no source.
 */
export const lookFor: Readonly<Record<Stage, LookFor>> = {
  bran: {
    good: [
      message('readiness.good.bran.look'),
      message('readiness.good.bran.smell'),
      message('readiness.good.bran.feel'),
    ],
    bad,
    cautions: readinessCautions,
  },
  soil: {
    good: [
      message('readiness.good.soil.look'),
      message('readiness.good.soil.smell'),
      message('readiness.good.soil.feel'),
    ],
    bad,
    cautions: readinessCautions,
  },
};

/** A person's own word; null before any. */
export type PersonsWord = { readonly ready: boolean } | null;

/**
 * One sentence from both. Only a person's yes is a yes, and what the probes saw otherwise stays said.
 *
 * @param isSpoilt Something bad was noted since that word.
 * @param isHeatJudged Whoever gave that word had smelt or looked since it was too hot: then that alone does not speak against it.
 */
export function readinessMessage(
  signs: readonly HeatSign[],
  person: PersonsWord,
  judged: SmellAndLook = nobodyJudged,
  isSpoilt = false,
  isHeatJudged = false,
): Message {
  const against = signs.filter(({ evidence }) => evidence === 'absent').length;
  const missing = signs.filter(({ evidence }) => evidence === 'missing').length;
  const heat = against > 0 ? 'against' : missing > 0 ? 'missing' : 'other';
  const judgedPart = judgedMessage(judged);
  if (isSpoilt) return message('readiness.says.spoilt', { heat, judgedPart });
  if (person === null) {
    const isJudged = judged.smell !== null || judged.look !== null;
    return isJudged
      ? message('readiness.says.judged', { heat, judgedPart })
      : message('readiness.says.nobody', { heat });
  }
  if (!person.ready) return message('readiness.says.not-ready', { heat });
  const isOverheated = signs.some(({ sign, evidence }) => sign === 'not-overheated' && evidence === 'absent');
  if (isOverheated && isHeatJudged && against === 1) return message('readiness.says.ready-after-heat');
  return against > 0 ? message('readiness.says.ready-against-heat') : message('readiness.says.ready', { heat });
}
