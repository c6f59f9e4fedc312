/**
 * One pile of the bench, whoever invented it: its story, its truth and what its probes measured, as judge, fixed thresholds
 * and tally are given it.
 */
import type { JudgeReading } from '../../../core/profiles/pile-setup.ts';
import { probeReadings } from './probe-readings.ts';
import type { Scenario, Story } from './scenario.ts';
import { type Truth, truthOf } from './truth.ts';
import { runWorld, sampleMin, type World } from './world.ts';

export interface Relaid {
  readonly depthM?: number;
  /** Food of what it is made of, against what it is. */
  readonly heatRatio?: number;
}

export interface Case {
  readonly scenario: Story;
  readonly world: World;
  /** In time order. */
  readonly readings: readonly JudgeReading[];
  readonly truth: Truth;
  /** What its probes would have said every few minutes, their losses of messages left out. */
  finely(): readonly JudgeReading[];
  /** The same pile laid otherwise. */
  relaid(change: Relaid): Case;
  /** Hours between its readings where they are made seldom on purpose; 0 as drawn. */
  readonly gapH: number;
  /** Whether the probes of core and top lie in each other’s place. */
  readonly isSwapped?: boolean;
}

export function caseOf(scenario: Scenario): Case {
  const world = runWorld(scenario);
  return {
    scenario,
    world,
    readings: probeReadings(scenario, world),
    truth: truthOf(scenario, world),
    finely: () => probeReadings({ ...scenario, everyMin: sampleMin, lossShare: 0 }, world),
    relaid: (change) => caseOf({ ...scenario, ...change }),
    gapH: 0,
  };
}
