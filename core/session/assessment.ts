/** What the judge has to say at one moment. */

import type { Assumption } from '../../shared/contracts/domain/batch.ts';
import type { Position } from '../../shared/names.ts';
import type { Phase } from '../../shared/warning.ts';
import type { HandSign } from '../by-hand/hand-signs.ts';
import type { AirSource } from '../estimate/air.ts';
import type { ComfortSide } from '../estimate/comfort.ts';
import type { CoreCourse } from '../estimate/course.ts';
import type { HandReading } from '../estimate/hand-reading.ts';
import type { PastHeat } from '../estimate/heat-memory.ts';
import type { Intervention } from '../estimate/interventions.ts';
import type { PhaseReason } from '../estimate/phase.ts';
import type { WaterToAdd } from '../estimate/water-to-add.ts';
import type { Forecast } from '../forecast/forecast.ts';
import type { Readiness } from '../readiness/readiness.ts';
import type { Finding, PositionSight } from '../warnings/finding.ts';
import type { MeasureNext } from './measure-next.ts';

export interface Assessment {
  readonly atMs: number;
  readonly phase: Phase;
  readonly phaseReason: PhaseReason;
  readonly phaseSinceMs: number;
  readonly progressPct: number;
  /** Null where no probe is, or none has spoken since it was given to this pile. */
  readonly positions: Readonly<Record<Position, PositionSight | null>>;
  /** Whether any position inside the pile has a probe, heard or not. */
  readonly hasProbe: boolean;
  /** The core speaks but cannot be believed: stuck, or out of the pile. */
  readonly coreDoubted: boolean;
  /** What each measured position has been through. */
  readonly heat: readonly PastHeat[];
  /** The air as the pile feels it; null when nobody says it. */
  readonly airC: number | null;
  /** Who says it where the probe that the pile goes by does not, there being none or none that speaks; null where it does, or nobody. */
  readonly airStandIn: Exclude<AirSource, 'probe'> | null;
  /** Rise of the core over the last hours [K/h]; null when it is not known. */
  readonly coreRiseKPerH: number | null;
  /** Null when it is not known. */
  readonly coreCourse: CoreCourse | null;
  /** On which side of the warmth its culture likes the core is; null when it is not known. */
  readonly comfort: ComfortSide | null;
  /** Whether it has made heat of its own, rather than kept what it was laid with. */
  readonly hasMadeHeat: boolean;
  /** Where the core stands against what such a pile should show. */
  readonly againstExpected: 'below' | 'within' | 'above' | null;
  /** Estimated moisture, wet basis, with one standard deviation; null while nothing of this bed stands behind it. */
  readonly moisture: { readonly frac: number; readonly sdFrac: number } | null;
  /** The next 24 hours of the core; null while it is not known. */
  readonly forecast: Forecast | null;
  /** Turns and waterings seen in the curves that nobody logged, to be offered for the journal. */
  readonly detectedInterventions: readonly { readonly kind: Intervention; readonly atMs: number }[];
  /** The bad signs that people noted by hand, nose and eye, one of each kind, as they stand. */
  readonly handSigns: readonly HandSign[];
  /** What speaks for the batch being done; the last word is a person's. */
  readonly readiness: Readiness;
  /** How much water brings the bed into its band; null when it needs none, or that is not known. */
  readonly waterToAdd: WaterToAdd | null;
  /** What nobody gave of how it was laid, and what is reckoned with instead. */
  readonly assumed: readonly Assumption[];
  /** When its core should be measured by hand next; null where a probe does. */
  readonly measureNext: MeasureNext | null;
  /** What was last measured by hand, by position. */
  readonly measuredByHand: readonly (HandReading & { readonly position: Position })[];
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
