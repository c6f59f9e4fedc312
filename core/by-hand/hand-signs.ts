/**
 * How the bad signs that a person noted come and go. Each is worked out anew from all that was noted and done, in the order of
 * its own time: an entry that arrives late takes its place, and one that is corrected or withdrawn was never there.
 */

import { clockAheadMs } from '../../shared/clock-ahead.ts';
import type { Act, ActKind } from '../../shared/contracts/domain/batch.ts';
import type { StageLimits } from '../../shared/stage.ts';
import { msPerHour } from '../../shared/units.ts';
import { type HandKind, handKinds, severities } from '../../shared/warning.ts';
import type { Noted } from '../profiles/noted.ts';
import { gravityOf, signOf } from './note-sign.ts';

/**
 * | from \ event      | bad note | good note       | act that answers |
 * |-------------------|----------|-----------------|------------------|
 * | unsaid            | bad      | good            | stay             |
 * | good              | bad      | stay            | stay             |
 * | bad               | stay     | good            | answered         |
 * | answered          | bad      | good            | stay             |
 *
 * Answered: something was done about it, and a person must look again. White growth beside coloured growth, within one visit,
 * takes nothing back: both grow there.
 */
export type HandState = 'unsaid' | 'good' | 'bad' | 'answered';

export interface HandSign {
  readonly kind: HandKind;
  readonly state: HandState;
  /** The note that put it into that state, or that was answered; null while nothing was said. */
  readonly note: Noted | null;
  /** What was done about it; null unless answered. */
  readonly answer: Act | null;
}

/** What is done about each sign. Nothing that is done to a pile takes growth away: only another look tells. */
const answers: Record<HandKind, readonly ActKind[]> = {
  'hand-dry': ['watered'],
  'hand-wet': ['turned', 'spread', 'uncovered'],
  'bad-smell': ['turned', 'spread', 'uncovered'],
  'wrong-growth': [],
};

/** What is noted within this of each other is of one visit [ms]; our own choice, no source. */
export const visitMs = msPerHour;

interface Heard {
  readonly noted?: readonly Noted[];
  readonly acts: readonly Act[];
  readonly limits: StageLimits;
}

/** One sign of each kind, as everything up to `nowMs` leaves it. */
export function handSigns(heard: Heard, nowMs: number): readonly HandSign[] {
  if (!heard.noted?.length) return nothingNoted;
  return handKinds.map((kind) => handSign(kind, heard, nowMs));
}

/** Most piles, most of the time: they are looked at several times a second. */
export const nothingNoted: readonly HandSign[] = handKinds.map((kind) => ({
  kind,
  state: 'unsaid',
  note: null,
  answer: null,
}));

function handSign(kind: HandKind, { noted = [], acts, limits }: Heard, nowMs: number): HandSign {
  let sign: HandSign = { kind, state: 'unsaid', note: null, answer: null };
  let acted = 0;
  const doneBefore = (untilMs: number): void => {
    for (let act = acts[acted]; act !== undefined && act.atMs < untilMs; act = acts[acted]) {
      acted += 1;
      if (sign.state === 'bad' && answers[kind].includes(act.kind)) sign = { ...sign, state: 'answered', answer: act };
    }
  };
  for (const note of noted) {
    if (note.atMs > nowMs + clockAheadMs) break;
    // Written down for one minute, the handful comes before what was done about it.
    doneBefore(note.atMs);
    sign = afterNote(sign, note, limits);
  }
  doneBefore(nowMs + clockAheadMs + 1);
  return sign;
}

function afterNote(sign: HandSign, note: Noted, limits: StageLimits): HandSign {
  const says = signOf(sign.kind, note.what, limits);
  if (says === null) return sign;
  const isSameVisit = sign.state === 'bad' && sign.note !== null && note.atMs - sign.note.atMs < visitMs;
  if (says === 'good') {
    if (isSameVisit && note.what.kind === 'growth') return sign;
    return { kind: sign.kind, state: 'good', note, answer: null };
  }
  // Of two bad notes of one visit the graver counts.
  const keepsFirst = isSameVisit && sign.note !== null && rank(sign.note) > rank(note);
  return keepsFirst ? sign : { kind: sign.kind, state: 'bad', note, answer: null };
}

const rank = ({ what }: Noted): number => severities.indexOf(gravityOf(what));
