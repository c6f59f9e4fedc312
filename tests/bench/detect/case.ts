/**
 * One pile of the bench, whoever invented it: its story, its truth and what its probes said.
 *
 * Takes:  a scenario of the development half.
 * Gives:  the case that judge, fixed thresholds and tally are given.
 */
import type { JudgeReading } from '../../../core/profiles/pile-setup.ts';
import { probeReadings } from './probe-readings.ts';
import type { Scenario, Story } from './scenario.ts';
import { type Truth, truthOf } from './truth.ts';
import { runWorld, type World } from './world.ts';

export interface Case {
  readonly scenario: Story;
  readonly world: World;
  /** In time order. */
  readonly readings: readonly JudgeReading[];
  readonly truth: Truth;
}

export function caseOf(scenario: Scenario): Case {
  const world = runWorld(scenario);
  return { scenario, world, readings: probeReadings(scenario, world), truth: truthOf(scenario, world) };
}
