/** What a pile says of the bad signs that a person noted, and what it asks for once something was done about one. */
import { sampleMoistureFrac } from '../../shared/entry.ts';
import { type Message, message, paragraph } from '../../shared/messages/message.ts';
import type { HandKind } from '../../shared/warning.ts';
import type { HandSign } from '../by-hand/hand-signs.ts';
import { badSmells, growthMessage } from '../by-hand/note-message.ts';
import type { Noted } from '../profiles/noted.ts';
import type { Assessment } from '../session/assessment.ts';
import { askedAgain, handAndEstimate } from '../warnings/by-hand.ts';
import type { AlarmFacts, Saying } from './saying.ts';
import { spokenAt } from './spoken-value.ts';

const someSign = message('say.sign');
const coreAsWell = message('say.next.core-as-well');
const coreDoubted = message('say.beside.core-doubted');

export function handSentence(kind: HandKind, facts: AlarmFacts): Saying {
  const { assessment, present } = facts;
  const note = signOf(assessment, kind)?.note;
  const next = present.get(kind)?.todo ?? askedAgain[kind];
  if (note == null) return { condition: someSign, next, tone: 'act' };
  const notePart = noteClause(kind, note, assessment.atMs);
  const besidePart = besideClause(kind, facts);
  return {
    condition:
      besidePart === null
        ? message('say.sign-noted', { notePart })
        : message('say.sign-noted-beside', { notePart, besidePart }),
    next: quietCore(assessment) === null ? next : paragraph(next, coreAsWell),
    tone: 'act',
  };
}

/** @example "It was watered 2 hours ago because it was too dry by hand. Squeeze a handful from the core again, and write down how it feels." */
export function askAgain({ handSigns, atMs }: Assessment): Message | null {
  const answered = handSigns.find(({ state }) => state === 'answered');
  if (answered?.answer == null) return null;
  const { kind, answer } = answered;
  const because = message('say.next.answered', {
    act: answering.find((act) => act === answer.kind) ?? 'other',
    agoMs: agoMs(answer.atMs, atMs),
    sign: signNames[kind],
  });
  return paragraph(because, askedAgain[kind]);
}

const answering = ['watered', 'turned', 'spread', 'uncovered'] as const;

const signNames = { 'hand-dry': 'dry', 'hand-wet': 'wet', 'bad-smell': 'smell', 'wrong-growth': 'other' } as const;

const againstHandCodes = {
  'hand-dry': 'say.drying-against-hand',
  'hand-wet': 'say.waterlogged-against-hand',
} as const;

/**
 * What the estimate says where a hand has said the contrary; null where no hand did.
 *
 * @example "It is drying out by the estimate (46 % water), though Ana’s squeeze 2 hours ago says it is damp enough."
 */
export function againstHand(kind: 'hand-dry' | 'hand-wet', { assessment }: AlarmFacts): Message | null {
  const sign = signOf(assessment, kind);
  if (sign?.state !== 'good' || sign.note === null || assessment.moisture === null) return null;
  return message(againstHandCodes[kind], {
    waterFrac: assessment.moisture.frac,
    ...whoseWord(sign.note),
    ...notedBy(sign.note, assessment.atMs),
  });
}

function signOf({ handSigns }: Assessment, kind: HandKind): HandSign | undefined {
  return handSigns.find((sign) => sign.kind === kind);
}

function noteClause(kind: HandKind, note: Noted, nowMs: number): Message {
  const { what } = note;
  const noted = notedBy(note, nowMs);
  switch (what.kind) {
    case 'squeeze':
    case 'sample': {
      const waterFrac =
        what.kind === 'sample' && what.dryG !== undefined ? sampleMoistureFrac(what.wetG, what.dryG) : null;
      return message('say.note.water', {
        ...noted,
        ...whoseWord(note),
        isDry: kind === 'hand-dry',
        isWeighed: waterFrac !== null,
        waterFrac: waterFrac ?? 0,
      });
    }
    case 'smell':
      return message('say.note.smell', { ...noted, smellsList: badSmells(what.smells) });
    case 'growth':
      return message('say.note.growth', { ...noted, growthPart: growthMessage(what) });
    case 'readiness':
      return message(kind === 'bad-smell' ? 'say.note.smell-judged' : 'say.note.look-judged', noted);
  }
}

const whoseWord = ({ what }: Noted) => ({ how: what.kind === 'sample' ? 'sample' : 'other' }) as const;

const notedBy = ({ by, atMs }: Noted, nowMs: number) => ({
  isNamed: by !== null,
  byName: by ?? '',
  agoMs: agoMs(atMs, nowMs),
});

const agoMs = (atMs: number, nowMs: number) => Math.max(0, nowMs - atMs);

/** What the probes say beside it: the estimate where hand and estimate can be laid together, else the core. */
function besideClause(kind: HandKind, facts: AlarmFacts): Message | null {
  const { assessment } = facts;
  const quiet = quietCore(assessment);
  if (quiet !== null) return quiet;
  const { core } = assessment.positions;
  const beside =
    assessment.moisture && handAndEstimate(kind, assessment.limits, assessment.moisture.frac, core !== null);
  if (beside !== null) {
    return message(beside.agree ? 'say.beside.estimate-agrees' : 'say.beside.estimate-disagrees', {
      waterFrac: beside.frac,
    });
  }
  return core?.temperatureC == null ? null : spokenAt('core', facts);
}

/** Why its heat is not known, where a core was measured before. */
function quietCore({ positions: { core }, atMs, coreDoubted: isDoubted }: Assessment): Message | null {
  if (core === null) return null;
  if (core.silent && core.byHand === true) {
    return message('say.beside.core-measured-ago', { agoMs: agoMs(core.atMs ?? atMs, atMs) });
  }
  if (core.silent) return message('say.beside.core-silent', { silentMs: atMs - (core.atMs ?? atMs) });
  return isDoubted ? coreDoubted : null;
}
