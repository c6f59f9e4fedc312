/** Where a batch is in its heat. It never says that a batch is ready: that takes a person's nose and eyes. */
import { type Message, message } from '../../shared/messages/message.ts';
import type { Phase } from '../../shared/warning.ts';
import { nearHeldH, nearK } from '../profiles/passed-heat.ts';

export const phaseReasons = [
  'just-laid',
  'heat-began',
  'heat-faded',
  'reached-working-heat',
  'fell-from-its-peak',
  'reheated',
  'back-near-air',
] as const;
export type PhaseReason = (typeof phaseReasons)[number];

/** A clause that says why a batch counts as being in its phase. */
export function phaseReasonMessage(reason: PhaseReason): Message {
  return reason === 'back-near-air'
    ? message('phase.reason.back-near-air', { nearK })
    : message(`phase.reason.${reason}`);
}

export interface HourSight {
  readonly coreC: number;
  /** Core above the day's air [K]. */
  readonly excessK: number;
  /** Rise of the core over the last six hours [K]. */
  readonly rise6K: number;
  readonly peakExcessK: number;
  /** Hours in a row within 5 °C of the air. */
  readonly nearAirH: number;
  /** The core at which the stage works [°C]. */
  readonly workingC: number;
}

export interface PhaseChange {
  readonly phase: Phase;
  readonly reason: PhaseReason;
}

/** Warm is a core this far above the air [K]; common practice, no source. */
export const warmExcessK = 4;

/**
 * When a batch changes its phase; all common practice, no source. Rises are over six hours [K], excess is over the air [K] or a share of
 * its peak [-].
 */
export const began = { riseK: 1 } as const;
const fell = { riseK: -0.5, fadedShare: 0.6, passedShare: 0.75, humpK: 10, fadedK: 3 } as const;
const again = { riseK: 2.5, coolingExcessK: 5, settledExcessK: 8 } as const;

/** Named changes only; undefined when the phase stays. */
export function nextPhase(phase: Phase, sight: HourSight): PhaseChange | undefined {
  switch (phase) {
    case 'resting':
      if (sight.coreC >= sight.workingC) return { phase: 'active', reason: 'reached-working-heat' };
      return sight.excessK >= warmExcessK && sight.rise6K >= began.riseK
        ? { phase: 'warming', reason: 'heat-began' }
        : undefined;
    case 'warming':
      if (sight.coreC >= sight.workingC) return { phase: 'active', reason: 'reached-working-heat' };
      if (sight.excessK < fell.fadedShare * sight.peakExcessK && sight.rise6K <= fell.riseK) {
        // Some heaps work gently and never reach the usual heat: a real hump is followed down as one.
        return sight.peakExcessK >= fell.humpK
          ? { phase: 'cooling', reason: 'fell-from-its-peak' }
          : sight.excessK < fell.fadedK
            ? { phase: 'resting', reason: 'heat-faded' }
            : undefined;
      }
      return undefined;
    case 'active':
      return sight.excessK < fell.passedShare * sight.peakExcessK && sight.rise6K <= fell.riseK
        ? { phase: 'cooling', reason: 'fell-from-its-peak' }
        : undefined;
    case 'cooling':
      if (sight.rise6K >= again.riseK && sight.excessK >= again.coolingExcessK)
        return { phase: 'active', reason: 'reheated' };
      return sight.nearAirH >= nearHeldH ? { phase: 'settled', reason: 'back-near-air' } : undefined;
    case 'settled':
      return sight.rise6K >= again.riseK && sight.excessK >= again.settledExcessK
        ? { phase: 'active', reason: 'reheated' }
        : undefined;
  }
}
