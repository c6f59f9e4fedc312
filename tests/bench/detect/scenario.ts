/**
 * One seeded pile for the detection bench, as data: what judge, truth and tally know of it, and what the generators of the
 * development half draw.
 */

import type { Shelter } from '../../../shared/contracts/domain/batch.ts';
import type { Position, Stage } from '../../../shared/names.ts';
import type { Material } from '../../../shared/profiles/material-names.ts';
import type { PileAct } from '../../../simulator/model/acts.ts';
import type { Climate } from '../../../simulator/model/climate.ts';
import type { PileCover, Shed } from '../../../simulator/model/pile.ts';

export interface Hand {
  readonly hour: number;
  readonly act: PileAct;
  /** Whether the grower wrote it down. */
  readonly logged: boolean;
}

/** One that was moved to another pile is not looked for: nobody knows the core meanwhile, and nothing claims to find it. */
export type FaultKind = 'silent' | 'stuck' | 'out' | 'spikes' | 'moved';

export interface Fault {
  readonly kind: FaultKind;
  readonly position: Position;
  readonly hour: number;
  /** When it is over; absent when it never is. */
  readonly untilHour?: number | undefined;
}

/** What happened to a pile and what its grower told. */
export interface Story {
  readonly name: string;
  readonly stage: Stage;
  readonly material: Material;
  readonly days: number;
  readonly startMs: number;
  readonly depthM: number;
  readonly cover: PileCover;
  readonly hands: readonly Hand[];
  /** What the grower told, where it differs from the truth; undefined = did not say. */
  readonly told: {
    readonly moistureFrac: number | undefined;
    readonly doseFrac: number | undefined;
    /** Mass as laid, water included. */
    readonly massKg: number | undefined;
    readonly shelter: Shelter | undefined;
    /** Share of wet days whose rain is read off a gauge and written down; 0 under a roof. */
    readonly rainShare: number;
  };
  readonly faults: readonly Fault[];
}

/** A pile of the development half, as drawn. */
export interface Scenario extends Story {
  readonly seed: number;
  readonly climate: Climate;
  readonly moistureFrac: number;
  readonly doseFrac: number;
  /** Mass of what goes in, as bought. */
  readonly massKg: number;
  readonly tempC: number;
  readonly shed: Shed;
  readonly shadeFrac: number;
  readonly fanMS: number;
  readonly everyMin: number;
  readonly positions: readonly Position[];
  readonly humidity: boolean;
  readonly lossShare: number;
  /** Each material and growth constant is multiplied by a number within 1 ± this. */
  readonly shift: number;
  /** Food of what it is made of, against the usual; 1 when absent. */
  readonly heatRatio?: number;
}
