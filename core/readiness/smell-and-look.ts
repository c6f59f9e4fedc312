/** What people found of a batch's smell and look, by their newest notes: a word on readiness, a smell, a growth. */

import type { judgements } from '../../shared/entry.ts';
import type { HandSign } from '../by-hand/hand-signs.ts';
import { lookOf, smellOf } from '../by-hand/verdict.ts';
import { clockAheadMs, type Noted } from '../profiles/noted.ts';

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

/** @example judgedWords({ smell: 'bad', look: null, badAtMs: 0 }) // => "Its smell was found bad; nobody has judged its look yet." */
export function judgedWords({ smell, look }: SmellAndLook): string {
  if (smell === null && look === null) return 'Nobody has judged its smell and look yet.';
  if (smell === null) return `Its look was found ${look}; nobody has smelt it yet.`;
  if (look === null) return `Its smell was found ${smell}; nobody has judged its look yet.`;
  return smell === look ? `Its smell and look were found ${smell}.` : `Its smell was found ${smell}, its look ${look}.`;
}
