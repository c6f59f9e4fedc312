/**
 * Who of a site's order is notified first, and who next when nobody answers. It never makes a hazard wait for its step:
 * everybody is notified of that at once (see `firstStep`).
 */
import { msPerMinute } from '../../shared/units.ts';
import type { AlarmState } from '../../shared/warning.ts';

/** Somebody who wants to be notified, and when they may be. */
export interface Candidate {
  readonly personId: string;
  readonly notifyAtMs: number;
}

export interface EscalationStep {
  /** Index in the order of who was notified last; -1 before the first. */
  readonly step: number;
  readonly atMs: number;
}

export interface Escalated {
  /** In the order in which they are notified; who is in quiet hours is passed over, and notified when those are over. */
  readonly notified: readonly Candidate[];
  readonly next: EscalationStep;
}

/** The first of the order, together with everybody who does not stand in it. */
export function firstStep(
  order: readonly string[],
  candidates: readonly Candidate[],
  hazard: boolean,
  nowMs: number,
): Escalated {
  if (hazard) return { notified: candidates, next: { step: order.length, atMs: nowMs } };
  const outside = candidates.filter(({ personId }) => !order.includes(personId));
  const { notified, next } = fromStep(order, candidates, 0, nowMs);
  return { notified: [...notified, ...outside], next };
}

export type EscalationAnswer = 'handed-on' | 'not-yet' | 'acknowledged' | 'end-of-order';

/** Whether an alarm goes on to the next of the order. */
export function stepEscalation(
  current: EscalationStep,
  alarm: { readonly state: AlarmState; readonly suppressed: boolean },
  order: readonly string[],
  candidates: readonly Candidate[],
  afterMin: number,
  nowMs: number,
): Escalated & { readonly answer: EscalationAnswer } {
  const stay = (answer: EscalationAnswer) => ({ notified: [], next: current, answer });
  if (alarm.state !== 'unacknowledged' || alarm.suppressed) return stay('acknowledged');
  if (current.step + 1 >= order.length) return stay('end-of-order');
  if (nowMs - current.atMs < afterMin * msPerMinute) return stay('not-yet');
  const following = fromStep(order, candidates, current.step + 1, nowMs);
  return { ...following, answer: following.notified.length > 0 ? 'handed-on' : 'end-of-order' };
}

function fromStep(order: readonly string[], candidates: readonly Candidate[], from: number, nowMs: number): Escalated {
  const notified: Candidate[] = [];
  for (let step = from; step < order.length; step++) {
    const candidate = candidates.find(({ personId }) => personId === order[step]);
    if (candidate === undefined) continue;
    notified.push(candidate);
    if (candidate.notifyAtMs <= nowMs) return { notified, next: { step, atMs: nowMs } };
  }
  return { notified, next: { step: order.length, atMs: nowMs } };
}
