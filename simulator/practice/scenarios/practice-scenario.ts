/** What a practice run is made of, as data. */
import type { Cover, Recipe } from '../../../shared/contracts/domain/batch.ts';
import type { Message } from '../../../shared/messages/message.ts';
import type { Position, Stage } from '../../../shared/names.ts';
import type { Material } from '../../../shared/profiles/material-names.ts';
import type { Quantity } from '../../../shared/quantity.ts';
import type { PileAct } from '../../model/acts.ts';
import type { Climate } from '../../model/climate.ts';
import type { PileRecipe } from '../../model/pile.ts';
import type { ChipName } from '../../probes/chip.ts';
import type { Fault } from '../../probes/fault.ts';

export type PracticeAct =
  | { readonly kind: 'turn' }
  | { readonly kind: 'water'; readonly litres: number }
  | { readonly kind: 'spread'; readonly depthM: number }
  | { readonly kind: 'heap'; readonly depthM: number }
  | { readonly kind: 'cover'; readonly cover: 'breathable' | 'closed' }
  | { readonly kind: 'uncover' }
  | { readonly kind: 'shade' }
  | { readonly kind: 'close-shed' }
  | { readonly kind: 'open-shed' }
  | { readonly kind: 'fan-off' }
  | { readonly kind: 'add-dry-bran'; readonly massKg: number }
  /** Push a probe back to its place. */
  | { readonly kind: 'reseat-probe'; readonly probe: string }
  /** Squeeze a handful. */
  | { readonly kind: 'squeeze' }
  | { readonly kind: 'look-and-smell' }
  /** The batch is done: goes on to the next stage. Ends the run. */
  | { readonly kind: 'finish' };
export type PracticeActKind = PracticeAct['kind'];

export interface PracticeProbe {
  readonly name: string;
  readonly position: Position;
  readonly chip: ChipName;
  readonly faults: readonly Fault[];
}

/** What must be so at the end; what is left out does not matter. */
export interface Goal {
  /** All of it, shown at the start. */
  readonly says: Message;
  readonly aliveFracMin?: number | undefined;
  /** Share of the batch's work done [-]. */
  readonly workFracMin?: number | undefined;
  readonly hoursAbove50Max?: number | undefined;
  readonly moistureFracMin?: number | undefined;
  readonly moistureFracMax?: number | undefined;
  /** Must be ended by hand, and not more than so many hours after it was done [h]. */
  readonly endedWithinH?: number | undefined;
}

/** Points of each part of the score; they add up to 100. */
export interface Weights {
  readonly culture: number;
  readonly work: number;
  readonly water: number;
  readonly heat: number;
  readonly ending: number;
}

export interface PracticeScenario {
  readonly id: string;
  readonly name: Message;
  /** What the keeper finds. */
  readonly story: Message;
  readonly goal: Goal;
  readonly stage: Stage;
  /** Length of the run [h]. */
  readonly hours: number;
  /** Nobody is there before this hour [h]. */
  readonly awayUntilH: number;
  readonly recipe: Omit<PileRecipe, 'startMs'>;
  /** As the grower would have written it down. */
  readonly given: Recipe & {
    readonly material: Material;
    readonly depthM: number;
    readonly moistureFrac: number;
    readonly cover: Cover;
  };
  readonly climate: Climate;
  readonly probes: readonly PracticeProbe[];
  /** What happens unseen [h after laying]. */
  readonly happenings: readonly { readonly afterH: number; readonly act: PileAct }[];
  /** Acts that make sense here, in the order they should be offered. */
  readonly tools: readonly PracticeActKind[];
  readonly weights: Weights;
  /** One good way, given in the debrief and proved in the tests. */
  readonly example: readonly { readonly afterH: number; readonly act: PracticeAct }[];
  /** What the run teaches, given in the debrief. */
  readonly lesson: Message;
}

export interface PracticeReading {
  readonly probe: string;
  readonly position: Position;
  readonly quantity: Quantity;
  readonly value: number;
  readonly atMs: number;
}
