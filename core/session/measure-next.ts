/**
 * When a core that no probe measures should be measured by hand again, from what the pile is doing. Twice a day is common practice,
 * no source; the rest is our own.
 */
import type { MeasureReason } from '../../shared/measure-reasons.ts';
import { type Message, message } from '../../shared/messages/message.ts';
import type { StageLimits } from '../../shared/stage.ts';
import { msPerHour } from '../../shared/units.ts';
import type { HandReading } from '../estimate/hand-reading.ts';

export interface MeasureNext {
  readonly position: 'core';
  readonly atMs: number;
  readonly reason: MeasureReason;
  readonly says: Message;
}

/** A quiet pile, twice a day [h]; common practice, no source. */
const quietH = 12;
/** Over its limit it is looked at again when it was turned and has had time to show it [h]; our own choice, no source. */
const overH = 2;
/** As near to its limit as this it is never left for half a day, and never asked for within an hour [K, h]; our own choice, no source. */
const nearK = 5;
const nearH = 6;
const leastH = 1;
/** While one measurement says nothing of its pace, it may warm as fast as a young pile does [K/h]; common practice, no source. */
const unknownKPerH = 2;
/** What it did since may have quickened by half [-]; our own choice, no source. */
const quickened = 1.5;
/** Slower than this it does not climb [K/h]; our own choice, no source. */
const restingKPerH = 0.1;
/** Measurements closer together than this, or further apart, say nothing of its pace [h]; our own choice, no source. */
const paceH = { least: 0.5, most: 36 } as const;

export interface MeasuredCore {
  /** The last by hand; null where nobody measured since it was laid. */
  readonly hand: HandReading | null;
  /** A probe serves it, and cannot be believed now. */
  readonly isProbeLost: boolean;
  readonly limits: Pick<StageLimits, 'actC'>;
  readonly nowMs: number;
}

export function measureNext({ hand, isProbeLost, limits: { actC }, nowMs }: MeasuredCore): MeasureNext {
  if (hand === null) {
    const reason = isProbeLost ? 'probe-lost' : 'never-measured';
    return { position: 'core', atMs: nowMs, reason, says: message(`measure.${reason}`) };
  }
  const { afterH, reason } = pause(hand, actC);
  const atMs = hand.atMs + afterH * msPerHour;
  return { position: 'core', atMs, reason, says: saysOf(reason, dueSays(atMs, nowMs), actC) };
}

type Paced = Exclude<MeasureReason, 'never-measured' | 'probe-lost'>;

function pause(hand: HandReading, actC: number): { readonly afterH: number; readonly reason: Paced } {
  const marginK = actC - hand.tempC;
  if (marginK <= 0) return { afterH: overH, reason: 'over-limit' };
  const paceKPerH = paceOf(hand);
  const isClimbing = paceKPerH !== null && paceKPerH > restingKPerH;
  // At an unknown pace by when it could be there; else after half of the time in which it could.
  const inH = paceKPerH === null ? marginK / unknownKPerH : marginK / (quickened * paceKPerH) / 2;
  const reachH = paceKPerH !== null && !isClimbing ? Number.POSITIVE_INFINITY : Math.max(leastH, inH);
  const isNear = marginK < nearK && nearH <= reachH;
  const afterH = Math.min(quietH, reachH, marginK < nearK ? nearH : quietH);
  if (afterH === quietH) return { afterH, reason: 'quiet' };
  return { afterH, reason: isNear ? 'near-limit' : isClimbing ? 'climbing' : 'not-known-yet' };
}

/** A clause. */
function dueSays(dueAtMs: number, nowMs: number): Message {
  return message(nowMs > dueAtMs ? 'measure.overdue' : 'measure.due', { dueAtMs });
}

function saysOf(reason: Paced, duePart: Message, actC: number): Message {
  return reason === 'quiet' || reason === 'not-known-yet'
    ? message(`measure.${reason}`, { duePart })
    : message(`measure.${reason}`, { duePart, actC });
}

/** How fast it moved between the last two; null where that is not known [K/h]. */
function paceOf({ tempC, atMs, beforeC, beforeMs }: HandReading): number | null {
  if (beforeC === null || beforeMs === null) return null;
  const hours = (atMs - beforeMs) / msPerHour;
  return hours < paceH.least || hours > paceH.most ? null : (tempC - beforeC) / hours;
}
