/**
 * Who of a site's order is told first, and who next when nobody answers. It never makes a hazard wait for its turn:
 * everybody is told of that at once (see `firstTurn`).
 */
import { msPerMinute } from '../../shared/units.ts';
import type { AlarmState } from '../../shared/warning.ts';

/** Somebody who wants to be notified, and when they may be told. */
export interface Candidate {
  readonly personId: string;
  readonly notifyAtMs: number;
}

export interface Turn {
  /** Place in the order that was told last; -1 before the first. */
  readonly place: number;
  readonly atMs: number;
}

export interface TurnStep {
  /** In the order in which they are told; who is in quiet hours is passed over, and told when those are over. */
  readonly notified: readonly Candidate[];
  readonly next: Turn;
}

/** The first of the order, together with everybody who does not stand in it. */
export function firstTurn(
  order: readonly string[],
  candidates: readonly Candidate[],
  hazard: boolean,
  nowMs: number,
): TurnStep {
  if (hazard) return { notified: candidates, next: { place: order.length, atMs: nowMs } };
  const outside = candidates.filter(({ personId }) => !order.includes(personId));
  const { notified, next } = fromPlace(order, candidates, 0, nowMs);
  return { notified: [...notified, ...outside], next };
}

export type EscalationAnswer = 'handed-on' | 'not-yet' | 'acknowledged' | 'end-of-order';

/** Whether an alarm goes on to the next of the order. */
export function stepEscalation(
  turn: Turn,
  alarm: { readonly state: AlarmState; readonly heldBack: boolean },
  order: readonly string[],
  candidates: readonly Candidate[],
  afterMin: number,
  nowMs: number,
): TurnStep & { readonly answer: EscalationAnswer } {
  const stay = (answer: EscalationAnswer) => ({ notified: [], next: turn, answer });
  if (alarm.state !== 'unacknowledged' || alarm.heldBack) return stay('acknowledged');
  if (turn.place + 1 >= order.length) return stay('end-of-order');
  if (nowMs - turn.atMs < afterMin * msPerMinute) return stay('not-yet');
  const step = fromPlace(order, candidates, turn.place + 1, nowMs);
  return { ...step, answer: step.notified.length > 0 ? 'handed-on' : 'end-of-order' };
}

function fromPlace(order: readonly string[], candidates: readonly Candidate[], from: number, nowMs: number): TurnStep {
  const notified: Candidate[] = [];
  for (let place = from; place < order.length; place++) {
    const candidate = candidates.find(({ personId }) => personId === order[place]);
    if (candidate === undefined) continue;
    notified.push(candidate);
    if (candidate.notifyAtMs <= nowMs) return { notified, next: { place, atMs: nowMs } };
  }
  return { notified, next: { place: order.length, atMs: nowMs } };
}
