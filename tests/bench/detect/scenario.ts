/**
 * tests/bench/detect/scenario.ts: one seeded pile for the detection bench, as data.
 *
 * Takes:  nothing.
 * Gives:  the shape that both generators fill and the world runs.
 */

import type { Material } from '../../../shared/batch.ts';
import type { Position, Stage } from '../../../shared/names.ts';
import type { PileAct } from '../../../simulator/model/acts.ts';
import type { Climate } from '../../../simulator/model/climate.ts';
import type { PileCover, Shed } from '../../../simulator/model/pile.ts';

export interface Hand {
  readonly hour: number;
  readonly act: PileAct;
  /** Whether the grower wrote it down. */
  readonly logged: boolean;
}

export type FaultKind = 'silent' | 'stuck' | 'out' | 'spikes';

export interface Fault {
  readonly kind: FaultKind;
  readonly position: Position;
  readonly hour: number;
}

export interface Scenario {
  readonly name: string;
  readonly seed: number;
  readonly stage: Stage;
  readonly material: Material;
  readonly days: number;
  readonly startMs: number;
  readonly climate: Climate;
  readonly depthM: number;
  readonly moistureFrac: number;
  readonly doseFrac: number;
  readonly massKg: number;
  readonly tempC: number;
  readonly cover: PileCover;
  readonly shed: Shed;
  readonly shadeFrac: number;
  readonly fanMS: number;
  readonly hands: readonly Hand[];
  /** What the grower told, where it differs from the truth; undefined = did not say. */
  readonly told: {
    readonly moistureFrac: number | undefined;
    readonly doseFrac: number | undefined;
    readonly massKg: number | undefined;
  };
  readonly everyMin: number;
  readonly positions: readonly Position[];
  readonly humidity: boolean;
  readonly lossShare: number;
  readonly fault: Fault | null;
  /** Each material and growth constant is multiplied by a number within 1 ± this. */
  readonly shift: number;
}
