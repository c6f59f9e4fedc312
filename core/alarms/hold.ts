/**
 * From evidence that comes and goes to a condition that stands or does not. It never lets missing evidence clear
 * anything, or clears without proof of absence for the whole off-delay.
 */
import type { Delays } from '../../shared/conditions/condition.ts';
import type { Evidence } from '../../shared/warning.ts';

const conditions = ['unknown', 'clear', 'pending', 'raised', 'clearing'] as const;
export type Condition = (typeof conditions)[number];

export type HoldBranch =
  | 'first-seen'
  | 'nothing-seen'
  | 'evidence-lost'
  | 'waiting-to-raise'
  | 'held-long-enough'
  | 'gone-before-hold'
  | 'still-present'
  | 'first-gone'
  | 'kept-without-evidence'
  | 'came-back'
  | 'waiting-to-clear'
  | 'gone-long-enough';

export interface Hold {
  readonly condition: Condition;
  /** Time of entry into the condition [epoch ms]. */
  readonly sinceMs: number;
}

export interface HoldStep {
  readonly next: Hold;
  readonly branch: HoldBranch;
}

/** @throws {RangeError} If time runs backwards. */
export function stepHold(hold: Hold, evidence: Evidence, nowMs: number, delays: Delays): HoldStep {
  if (!(nowMs >= hold.sinceMs)) {
    throw new RangeError(
      `Cannot step an alarm back in time: condition entered at ${hold.sinceMs}, evaluated at ${nowMs}`,
    );
  }
  const enter = (condition: Condition, branch: HoldBranch): HoldStep => ({
    next: { condition, sinceMs: nowMs },
    branch,
  });
  const stay = (branch: HoldBranch): HoldStep => ({ next: hold, branch });
  const heldMs = nowMs - hold.sinceMs;

  switch (hold.condition) {
    case 'unknown':
    case 'clear':
      if (evidence === 'present') {
        return delays.onDelayMs <= 0 ? enter('raised', 'held-long-enough') : enter('pending', 'first-seen');
      }
      if (evidence === 'absent') {
        return hold.condition === 'clear' ? stay('nothing-seen') : enter('clear', 'nothing-seen');
      }
      return hold.condition === 'unknown' ? stay('evidence-lost') : enter('unknown', 'evidence-lost');
    case 'pending':
      if (evidence === 'absent') return enter('clear', 'gone-before-hold');
      if (evidence === 'missing') return enter('unknown', 'evidence-lost');
      return heldMs >= delays.onDelayMs ? enter('raised', 'held-long-enough') : stay('waiting-to-raise');
    case 'raised':
      if (evidence === 'present') return stay('still-present');
      if (evidence === 'missing') return stay('kept-without-evidence');
      return delays.offDelayMs <= 0 ? enter('clear', 'gone-long-enough') : enter('clearing', 'first-gone');
    case 'clearing':
      if (evidence === 'present') return enter('raised', 'came-back');
      // The off-delay asks for proof of absence, and there is none now: it starts afresh later.
      if (evidence === 'missing') return enter('raised', 'kept-without-evidence');
      return heldMs >= delays.offDelayMs ? enter('clear', 'gone-long-enough') : stay('waiting-to-clear');
  }
}

/** Whether a condition counts as standing. */
export function stands(condition: Condition): boolean {
  return condition === 'raised' || condition === 'clearing';
}
