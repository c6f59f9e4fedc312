/** What a pile says of the bad signs that a person noted, and what it asks for once something was done about one. */
import { sampleMoistureFrac } from '../../shared/entry.ts';
import { plainEnglish } from '../../shared/messages/render.ts';
import type { HandKind } from '../../shared/warning.ts';
import type { HandSign } from '../by-hand/hand-signs.ts';
import { growthWords, smellWords } from '../by-hand/note-words.ts';
import type { Noted } from '../profiles/noted.ts';
import type { Assessment } from '../session/assessment.ts';
import { askedAgain, handAndEstimate } from '../warnings/by-hand.ts';
import { spokenValue } from '../warnings/spoken-value.ts';
import { duration, percent } from '../words/words.ts';
import type { AlarmFacts, Saying } from './saying.ts';

export function handSentence(kind: HandKind, facts: AlarmFacts): Saying {
  const { assessment, present } = facts;
  const note = signOf(assessment, kind)?.note;
  const next = plainEnglish(present.get(kind)?.todo ?? askedAgain[kind]);
  if (note == null) return { condition: 'Somebody noted a bad sign.', next, tone: 'act' };
  return {
    condition: `${capital(noteWords(kind, note, assessment.atMs))}${besideWords(kind, facts)}.`,
    next: `${next}${quietCore(facts) === null ? '' : ' Measure its core by hand as well.'}`,
    tone: 'act',
  };
}

/** @example "Squeeze a handful from the core again, and write down how it feels." */
export function askAgain(assessment: Assessment): string | null {
  const answered = assessment.handSigns.find(({ state }) => state === 'answered');
  if (answered?.answer == null) return null;
  const { kind, answer } = answered;
  return `${doneWords[answer.kind] ?? 'Something was done'} ${ago(answer.atMs, assessment.atMs)} because ${because[kind]}. ${plainEnglish(askedAgain[kind])}`;
}

const doneWords: Partial<Record<string, string>> = {
  watered: 'It was watered',
  turned: 'It was turned',
  spread: 'It was spread',
  uncovered: 'It was uncovered',
};

const because: Record<HandKind, string> = {
  'hand-dry': 'it was too dry by hand',
  'hand-wet': 'it was too wet by hand',
  'bad-smell': 'it smelt bad',
  'wrong-growth': 'something grew there that should not',
};

/**
 * What the estimate says where a hand has said the contrary; null where no hand did.
 *
 * @example "It is drying out by the estimate (46 % water), though Ana’s squeeze 2 hours ago says it is damp enough."
 */
export function againstHand(
  estimate: string,
  kind: 'hand-dry' | 'hand-wet',
  { assessment }: AlarmFacts,
): string | null {
  const sign = signOf(assessment, kind);
  if (sign?.state !== 'good' || sign.note === null || assessment.moisture === null) return null;
  const when = ago(sign.note.atMs, assessment.atMs);
  const says = kind === 'hand-dry' ? 'it is damp enough' : 'it is not too wet';
  return `${estimate} by the estimate (${percent(assessment.moisture.frac)} water), though ${subject(sign.note)} ${when} says ${says}.`;
}

function signOf({ handSigns }: Assessment, kind: HandKind): HandSign | undefined {
  return handSigns.find((sign) => sign.kind === kind);
}

function noteWords(kind: HandKind, note: Noted, nowMs: number): string {
  const { what, by, atMs } = note;
  const when = ago(atMs, nowMs);
  const noted = by === null ? `noted ${when}` : `noted by ${by} ${when}`;
  switch (what.kind) {
    case 'squeeze':
      return `${subject(note)} ${when} says it is ${kind === 'hand-dry' ? 'too dry' : 'too wet'}`;
    case 'sample': {
      const held = what.dryG === undefined ? '' : ` (${percent(sampleMoistureFrac(what.wetG, what.dryG))} water)`;
      return `${subject(note)} ${when} says it is ${kind === 'hand-dry' ? 'too dry' : 'too wet'}${held}`;
    }
    case 'smell':
      return `It smells ${smellWords(what.smells)}, ${noted}`;
    case 'growth':
      return `${growthWords(what)}, ${noted}`;
    case 'readiness':
      return kind === 'bad-smell' ? `Its smell was found bad, ${noted}` : `Its look was found bad, ${noted}`;
  }
}

/** @example "Ana’s squeeze"; without a name "a squeeze" */
function subject({ by, what }: Noted): string {
  const whose = by === null ? 'a' : `${by}’s`;
  return `${whose} ${what.kind === 'sample' ? 'weighed sample' : 'squeeze'}`;
}

const capital = (text: string): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}`;

function ago(atMs: number, nowMs: number): string {
  return `${duration(Math.max(0, nowMs - atMs))} ago`;
}

/** What the probes say beside it: the estimate where hand and estimate can be laid together, else the core. */
function besideWords(kind: HandKind, facts: AlarmFacts): string {
  const quiet = quietCore(facts);
  if (quiet !== null) return `; ${quiet}`;
  const { assessment, temp } = facts;
  const { core } = assessment.positions;
  const told = assessment.moisture && handAndEstimate(kind, assessment.limits, assessment.moisture.frac, core !== null);
  if (told !== null) {
    return told.agree
      ? `; with that the estimate is ${percent(told.frac)} water`
      : `; the estimate still says ${percent(told.frac)} water: they disagree`;
  }
  return core?.temperatureC == null ? '' : `; ${spokenValue('core', core, assessment.atMs, temp)}`;
}

/** Why its heat is not known, where a core was measured before. */
function quietCore({ assessment }: AlarmFacts): string | null {
  const { core } = assessment.positions;
  if (core === null) return null;
  if (core.silent)
    return `its core probe has been silent for ${duration(assessment.atMs - (core.atMs ?? assessment.atMs))}`;
  return assessment.coreDoubted ? 'its core probe cannot be believed now' : null;
}
