/** What people found of a batch's smell and look, by their newest notes: a word on readiness, a smell, a growth. */

import { clockAheadMs } from '../../shared/clock-ahead.ts';
import type { judgements } from '../../shared/entry.ts';
import { type Message, message } from '../../shared/messages/message.ts';
import type { HandSign } from '../by-hand/hand-signs.ts';
import { lookOf, smellOf } from '../by-hand/note-sign.ts';
import type { Noted } from '../profiles/noted.ts';

type Judged = (typeof judgements)[number];

export interface SmellAndLook {
  /** Null while nobody has judged it. */
  readonly smell: Judged | null;
  readonly look: Judged | null;
  /** When something bad was noted last; null when never. */
  readonly badAtMs: number | null;
}

export const nobodyJudged: SmellAndLook = { smell: null, look: null, badAtMs: null };

/** @param noted Oldest first. @param signs How the bad signs stand then: white beside coloured growth does not mend it. */
export function smellAndLook(noted: readonly Noted[], signs: readonly HandSign[], nowMs: number): SmellAndLook {
  if (noted.length === 0) return nobodyJudged; // most piles
  let { smell, look, badAtMs } = nobodyJudged;
  for (const { atMs, what } of noted) {
    if (atMs > nowMs + clockAheadMs) break;
    const [smelt, looked] = [smellOf(what), lookOf(what)];
    smell = smelt ?? smell;
    look = looked ?? look;
    if (smelt === 'bad' || looked === 'bad') badAtMs = atMs;
  }
  const stillWrong = signs.some(({ kind, state }) => kind === 'wrong-growth' && state === 'bad');
  return { smell, look: stillWrong ? 'bad' : look, badAtMs };
}

/** A clause. @example "Its smell was found bad; nobody has judged its look yet" */
export function judgedMessage({ smell, look }: SmellAndLook): Message {
  if (smell === null) return look === null ? nobody : message('readiness.judged.look', { look });
  if (look === null) return message('readiness.judged.smell', { smell });
  return smell === look
    ? message('readiness.judged.alike', { smell })
    : message('readiness.judged.both', { smell, look });
}

const nobody = message('readiness.judged.nobody');
