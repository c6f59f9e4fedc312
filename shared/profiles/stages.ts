/**
 * Every fact of every stage, each once and with its source, beside the limits that a grower may change for a batch (`stageLimits`).
 * Planner, judge and forms read it here.
 */
import type { Stage } from '../names.ts';
import type { Material } from './material-names.ts';

interface Days {
  readonly minDays: number;
  readonly maxDays: number;
}

export interface StageProfile {
  /** What such a bed is made of where nobody said; the kind of bed the stage is named after. */
  readonly usualMaterial: Material;
  /** How long it takes in air of so much and more, and in cooler air [°C, d]; null where the limits say it for any air. */
  readonly daysByAir: { readonly warmFromC: number; readonly warm: Days; readonly cool: Days } | null;
  /** When it is turned, whatever its heat: every so many days, the last one as a test, or once, where it lies longer [d]. */
  readonly turned: { readonly everyDays: number } | { readonly onDay: number };
  /** In air of this and more it is laid lower than the middle of its depths [°C]; null where heat is no matter. */
  readonly lowerFromAirC: number | null;
  /** Activity-hours it needs [h]. */
  readonly neededActivityH: number;
  /** It works when so far above the air [K]; null where it does from the lower end of its comfort on. */
  readonly worksFromAboveAirK: number | null;
  /** A bed that was once so far above the air has had its air [K]; null where one that reached its comfort has. */
  readonly airedAboveAirK: number | null;
  readonly stall: StallFacts;
}

interface StallFacts {
  /** A batch that has burnt this much of its food and cools is ending, not stalling [-]. */
  readonly nearlyDone: number;
  /** A batch that had a hump of this height and is as old as its stage may be has ended rather than stalled [K]. */
  readonly humpK: number;
  /** Before this age a heap may still be waking; in the cold it takes so much longer at most [h]. */
  readonly wakingH: number;
  readonly coldWakingH: number;
  /**
   * Burning less of its food a day than this is standing still; the same within the second when it also lies below the expected band;
   * at work it burns the third and more [per day]. As reckoned: of a soil bed's heat less is seen. From the development piles of the
   * detection bench.
   */
  readonly standingPerDay: number;
  readonly slowPerDay: number;
  readonly workingPerDay: number;
  /** Whether a bed that is comfortably warm and burns nothing is idle, and no slow one. */
  readonly isIdleWhenWarm: boolean;
}

/** All common practice, no source, but `lowerFromAirC`, `airedAboveAirK` and `stall`, which are our own choice. */
export const stageProfiles: Readonly<Record<Stage, StageProfile>> = {
  bran: {
    usualMaterial: 'wheat-bran',
    daysByAir: { warmFromC: 20, warm: { minDays: 5, maxDays: 7 }, cool: { minDays: 7, maxDays: 10 } },
    turned: { everyDays: 2 },
    lowerFromAirC: 25,
    // Four days of a core between 35 and 45 °C are 90 or more.
    neededActivityH: 72,
    worksFromAboveAirK: null,
    airedAboveAirK: null,
    stall: {
      nearlyDone: 0.4,
      humpK: 10,
      wakingH: 30,
      coldWakingH: 0,
      standingPerDay: 0.05,
      slowPerDay: 0.065,
      workingPerDay: 0.12,
      isIdleWhenWarm: true,
    },
  },
  soil: {
    usualMaterial: 'soil-mix',
    daysByAir: null,
    turned: { onDay: 3 },
    lowerFromAirC: null,
    // A day and a half of gentle warmth.
    neededActivityH: 24,
    worksFromAboveAirK: 5,
    airedAboveAirK: 5,
    stall: {
      nearlyDone: 0.06,
      humpK: 4,
      wakingH: 20,
      coldWakingH: 4,
      standingPerDay: 0.02,
      slowPerDay: 0.026,
      workingPerDay: 0.05,
      isIdleWhenWarm: false,
    },
  },
};
