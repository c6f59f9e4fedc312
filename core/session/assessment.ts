/** What the judge has to say at one moment. */

import type { Assumption } from '../../shared/contracts/domain/batch.ts';
import type { Position } from '../../shared/names.ts';
import type { Evidence, Phase, Severity, WarningKind } from '../../shared/warning.ts';
import type { Grade } from '../alarms/alarm.ts';
import type { Nearness } from '../alarms/policies.ts';
import type { HandSign } from '../by-hand/hand-signs.ts';
import type { Intervention } from '../estimate/interventions.ts';
import type { PhaseReason } from '../estimate/phase.ts';
import type { WaterToAdd } from '../estimate/water-to-add.ts';
import type { Forecast } from '../forecast/forecast.ts';
import type { Readiness } from '../readiness/readiness.ts';
import type { CoreCourse } from './course.ts';
import type { PastHeat } from './heat-memory.ts';

export interface PositionSight {
  /** The last that is believed. */
  readonly temperatureC: number | null;
  readonly humidityPct: number | null;
  readonly moisturePct: number | null;
  readonly co2Ppm: number | null;
  /** When that temperature was measured, and how often one comes; 0 while that is not known [epoch ms, ms]. */
  readonly temperatureAtMs: number | null;
  readonly everyMs: number;
  /** A newer temperature that jumped: it is believed once the next reading bears it out. */
  readonly doubted: { readonly temperatureC: number; readonly atMs: number } | null;
  /** When anything came last from there. */
  readonly atMs: number | null;
  readonly silent: boolean;
}

export interface Finding {
  readonly kind: WarningKind;
  /** Where; null when it is about the whole pile. */
  readonly position: Position | null;
  readonly evidence: Evidence;
  readonly severity: Severity;
  /** What was seen, what to do, by when, the caution that goes with it. */
  readonly seen: string;
  readonly todo: string;
  readonly byMs: number | null;
  readonly caution: string | null;
  /** The rule that was applied, with its limits, so that a page can say why. */
  readonly why: string;
  /** The finding that explains this one and holds it back. */
  readonly explainedBy: WarningKind | null;
  /** Who noted it and when, where it rests on a person's word. */
  readonly noted?: { readonly atMs: number; readonly by: string | null };
  /** Rung of the hazard ladder reached, counted from 1; absent for kinds without one. */
  readonly rung?: number;
  /** How far past its limit; 'past' when absent. What is clear of it need not be held first: a limit chatters only near itself. */
  readonly nearness?: Nearness;
}

export function gradeOf({ severity, rung }: Finding): Grade {
  return rung === undefined ? { severity } : { severity, rung };
}

export interface Assessment {
  readonly atMs: number;
  readonly phase: Phase;
  readonly phaseReason: PhaseReason;
  readonly phaseSinceMs: number;
  readonly progressPct: number;
  /** Null where no probe is, or none has spoken since it was given to this pile. */
  readonly positions: Readonly<Record<Position, PositionSight | null>>;
  /** Whether any place inside the pile has a probe, heard or not. */
  readonly hasProbe: boolean;
  /** The core speaks but cannot be believed: stuck, or out of the pile. */
  readonly coreDoubted: boolean;
  /** What each measured place has been through. */
  readonly heat: readonly PastHeat[];
  /** The air as the pile feels it; null when it is not measured. */
  readonly airC: number | null;
  /** Rise of the core over the last hours [K/h]; null when it cannot be told. */
  readonly coreRiseKPerH: number | null;
  /** Null when it cannot be told. */
  readonly coreCourse: CoreCourse | null;
  /** Where the core stands against what such a pile should show. */
  readonly againstExpected: 'below' | 'within' | 'above' | null;
  /** Estimated moisture, wet basis, with one standard deviation; null while nothing of this bed stands behind it. */
  readonly moisture: { readonly frac: number; readonly sdFrac: number } | null;
  /** The next 24 hours of the core; null while it cannot be told. */
  readonly forecast: Forecast | null;
  /** Turns and waterings seen in the curves that nobody logged, to be offered for the journal. */
  readonly seenHands: readonly { readonly kind: Intervention; readonly atMs: number }[];
  /** The bad signs that people noted by hand, nose and eye, one of each kind, as they stand. */
  readonly handSigns: readonly HandSign[];
  /** What speaks for the batch being done; the last word is a person's. */
  readonly readiness: Readiness;
  /** How much water brings the bed into its band; null when it needs none, or that cannot be told. */
  readonly waterToAdd: WaterToAdd | null;
  /** What nobody gave of how it was laid, and what is reckoned with instead. */
  readonly assumed: readonly Assumption[];
  readonly limits: {
    readonly actC: number;
    readonly lossC: number;
    readonly comfortMinC: number;
    readonly comfortMaxC: number;
    readonly moistureMinFrac: number;
    readonly moistureMaxFrac: number;
  };
  readonly findings: readonly Finding[];
}
