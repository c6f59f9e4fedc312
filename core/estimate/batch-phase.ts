/** Which phase a batch is in and since when, and the humps of heat that show it. */
import { z } from 'zod';
import type { StageLimits } from '../../shared/stage.ts';
import { msPerHour } from '../../shared/units.ts';
import { phaseSchema as phaseNameSchema } from '../../shared/warning.ts';
import { comfortOfHour, comfortSides } from './comfort.ts';
import { nextPhase, phaseReasons } from './phase.ts';

export const phaseSchema = z.object({
  now: phaseNameSchema,
  reason: z.enum(phaseReasons),
  sinceMs: z.number(),
  /** On which side of the warmth its culture likes the core is. */
  comfort: z.enum(comfortSides),
  /** The core of the first hour, and the highest hour of the batch [°C]. */
  startC: z.number().nullable(),
  peakC: z.number().nullable(),
  /** Above the air, of the running hump, and of the whole batch [K]. */
  peakExcessK: z.number(),
  highestExcessK: z.number(),
});
export type BatchPhase = z.infer<typeof phaseSchema>;

/** So long a turned bed may take to warm again [ms]; our own choice, no source. */
const handExplainsMs = 12 * msPerHour;

export function startPhase(startedAtMs: number): BatchPhase {
  return {
    now: 'resting',
    reason: 'just-laid',
    sinceMs: startedAtMs,
    comfort: 'below',
    startC: null,
    peakC: null,
    peakExcessK: 0,
    highestExcessK: 0,
  };
}

export interface PhaseHour {
  readonly endMs: number;
  readonly coreC: number;
  /** Core above the day's air [K]. */
  readonly excessK: number;
  /** Rise of the core over the last six hours, or since the start [K]; null where that was not measured. */
  readonly rise6K: number | null;
  readonly nearAirH: number;
  /** The core at which the stage works [°C]. */
  readonly workingC: number;
  /** When somebody last handled the pile. */
  readonly disturbedAtMs: number | null;
  readonly limits: Pick<StageLimits, 'comfortMinC' | 'comfortMaxC'>;
}

export function followPhase(phase: BatchPhase, hour: PhaseHour): void {
  const { coreC, excessK, endMs, nearAirH, workingC, disturbedAtMs } = hour;
  phase.startC ??= coreC;
  phase.comfort = comfortOfHour(phase.comfort, coreC, hour.limits);
  if (phase.peakC === null || coreC > phase.peakC) phase.peakC = coreC;
  if (excessK > phase.peakExcessK) phase.peakExcessK = excessK;
  if (excessK > phase.highestExcessK) phase.highestExcessK = excessK;
  // Across a gap nothing is known of how it moved: it neither rose nor fell.
  const rise6K = hour.rise6K ?? 0;
  const { peakExcessK } = phase;
  const change = nextPhase(phase.now, { coreC, excessK, rise6K, peakExcessK, nearAirH, workingC });
  if (change === undefined) return;
  // A drop that a hand explains is no heat passing: it may well come back.
  const handledMs = disturbedAtMs === null ? Number.POSITIVE_INFINITY : endMs - disturbedAtMs;
  if (change.phase === 'cooling' && handledMs < handExplainsMs) return;
  phase.now = change.phase;
  phase.reason = change.reason;
  phase.sinceMs = endMs;
  if (change.reason === 'heat-faded' || change.reason === 'reheated') phase.peakExcessK = excessK;
}

/** A bed that never rose by this much over what it was laid with [K] nor burnt this share of its food has made no heat [-]; our own choice, no source. */
const madeNone = { riseK: 2, share: 0.02 } as const;

/** Whether the batch has made heat of its own: it may be warm of what it was laid with, or of the weather. */
export function hasMadeHeat({ startC, peakC }: Readonly<BatchPhase>, burntShare: number): boolean {
  return (startC !== null && peakC !== null && peakC - startC >= madeNone.riseK) || burntShare >= madeNone.share;
}
