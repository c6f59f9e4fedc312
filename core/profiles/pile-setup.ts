/** What the judge is given about a pile, and what it is fed. */
import type { Act, Assumption, Recipe } from '../../shared/contracts/domain/batch.ts';
import type { Position, Stage } from '../../shared/names.ts';
import type { Quantity } from '../../shared/quantity.ts';
import type { StageLimits } from '../../shared/stage.ts';
import type { AirAhead } from './air-reading.ts';
import type { Noted } from './noted.ts';

export interface PileSetup {
  readonly stage: Stage;
  readonly startedAtMs: number;
  readonly limits: StageLimits;
  readonly recipe: Recipe;
  /** What of the recipe nobody gave; absent where all was. */
  readonly assumed?: readonly Assumption[];
  /** Oldest first. */
  readonly acts: readonly Act[];
  /** What people noted with hand, nose, eyes and scales; oldest first. */
  readonly noted?: readonly Noted[];
  /** When a person found smell and look good; absent until then. */
  readonly confirmedAtMs?: number;
  /**
   * Since when a probe has served each position of this batch [epoch ms]; a position left out has none now. Absent where whatever
   * speaks counts as serving.
   */
  readonly served?: Served;
  /** The air of the site as it is foretold, reckoned with while no probe says it; absent where nobody foretells it. */
  readonly airAhead?: AirAhead;
}

export type Served = Readonly<Partial<Record<Position, number>>>;

export interface JudgeReading {
  readonly position: Position;
  readonly quantity: Quantity;
  readonly value: number;
  readonly atMs: number;
  /** Measured with a thermometer in a hand. */
  readonly byHand?: boolean;
  /** Measured in the air of a neighbour, for when the probe that the pile goes by falls silent: the first or the second choice. */
  readonly standby?: Standby;
}

/** The first choice of neighbours whose air stands by, and the second. */
export type Standby = 0 | 1;

/** Positions inside a pile; `air` is beside it. */
export const pilePositions = ['core', 'top', 'base', 'edge'] as const satisfies readonly Position[];
export type PilePosition = (typeof pilePositions)[number];
