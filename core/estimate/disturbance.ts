/** When somebody last handled the pile, logged or seen in its curves: that explains a drop. What was only seen is offered for the journal. */
import { z } from 'zod';
import type { Act } from '../../shared/contracts/domain/batch.ts';
import type { Material } from '../../shared/profiles/material-names.ts';
import { msPerHour } from '../../shared/units.ts';
import type { Bed } from '../profiles/bed.ts';
import { isSeldom } from './between.ts';
import { detectIntervention, type Intervention, interventions, ownFallShare, wasOpened } from './interventions.ts';
import type { Positions } from './position.ts';
import { sameInterventionMs } from './same-intervention.ts';
import type { Track } from './track.ts';

export const disturbanceSchema = z.object({
  atMs: z.number().nullable(),
  by: z.enum(['logged', 'seen']).nullable(),
  /** Seen in the curves and not yet in the acts, of the last two days. */
  detected: z.array(z.object({ kind: z.enum(interventions), atMs: z.number() })),
  /** Volumetric moisture of the core at the end of the hour before [%]. */
  moistureBeforePct: z.number().nullable(),
});
export type Disturbance = z.infer<typeof disturbanceSchema>;

/** A pulled probe is known for one this much later [ms]: `stayH` of out-of-pile.ts, doubled; our own choice, no source. */
const pulledBeforeMs = 8 * msPerHour;
/** So long one that was seen is kept, and offered for the journal [ms]; our own choice, no source. */
export const offeredMs = 48 * msPerHour;

export const startDisturbance = (): Disturbance => ({ atMs: null, by: null, detected: [], moistureBeforePct: null });

/** Whether an act moves the heat of a pile: covering and rain do so slowly, a note not at all. */
export function disturbs({ kind }: Act): boolean {
  return kind !== 'note' && kind !== 'covered' && kind !== 'rained';
}

export function noteAct(disturbance: Disturbance, act: Act): void {
  if (!disturbs(act)) return;
  disturbance.atMs = act.atMs;
  disturbance.by = 'logged';
}

export interface DisturbedHour {
  readonly endMs: number;
  readonly coreC: number;
  /** The core of the hour before; null where it was not measured. */
  readonly beforeC: number | null;
  /** The air as the pile feels it. */
  readonly airC: number;
  readonly bed: Bed;
  readonly material: Material;
}

/** What was done between the last two readings of a core that is read seldom, passed on once, at the hour before the newer one. */
function doneUnseen(core: Track, { endMs, airC, bed, material }: DisturbedHour): Intervention | undefined {
  if (endMs + msPerHour <= core.atMs) return undefined;
  const gapH = (core.atMs - core.previousAtMs) / msPerHour;
  const isOpened = wasOpened(core.previous - core.value, core.previous - airC, ownFallShare(gapH, bed, material));
  return isOpened ? 'turned' : undefined;
}

/**
 * Looks through the curves of one hour. What nobody logged explains a drop all the same, and is offered for the journal.
 *
 * @returns What was done in the hour, logged or not; undefined where nothing was, or the core's probe came out of the pile.
 */
export function followDisturbance(
  disturbance: Disturbance,
  { core: followed, top, base, air }: Readonly<Positions>,
  acts: readonly Act[],
  hour: DisturbedHour,
): Intervention | undefined {
  const { endMs, coreC, beforeC, airC } = hour;
  const moisturePct = followed?.moisture == null ? null : followed.moisture.value;
  const { moistureBeforePct } = disturbance;
  disturbance.moistureBeforePct = moisturePct;
  const core = followed?.temperature ?? null;
  const isReadSeldom = core !== null && isSeldom(core);
  const inHour = detectIntervention({
    // The last reading shows a fall before the hour's mean does; that of a core read seldom lies hours ahead.
    coreK: beforeC === null ? null : (core === null || isReadSeldom ? coreC : core.value) - beforeC,
    topK: top?.hour.stepK ?? null,
    baseK: base?.hour.stepK ?? null,
    airK: air?.hour.stepK ?? 0,
    excessK: (beforeC ?? coreC) - airC,
    moisturePct: moisturePct === null || moistureBeforePct === null ? null : moisturePct - moistureBeforePct,
  });
  const kind = inHour ?? (isReadSeldom ? doneUnseen(core, hour) : undefined);
  const outMs = followed?.out.sinceMs ?? null;
  if (outMs !== null) {
    // What looked like a hand was the probe coming out of the pile.
    disturbance.detected = disturbance.detected.filter(({ atMs }) => outMs - atMs > pulledBeforeMs);
    return undefined;
  }
  if (kind === undefined) return undefined;
  const near = (atMs: number): boolean => Math.abs(atMs - endMs) < sameInterventionMs;
  if (acts.some((act) => act.kind !== 'note' && near(act.atMs))) return kind;
  if (disturbance.detected.some((seen) => near(seen.atMs))) return kind;
  disturbance.detected = [
    ...disturbance.detected.filter(({ atMs }) => endMs - atMs < offeredMs),
    { kind, atMs: endMs },
  ];
  disturbance.atMs = endMs;
  disturbance.by = 'seen';
  return kind;
}
