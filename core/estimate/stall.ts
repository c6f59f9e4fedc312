/**
 * How long a pile has stood still, and why that counts as a stall. It never calls a natural dip, a planned airing or the end of
 * a batch one.
 */
import { z } from 'zod';
import { stageProfiles } from '../../shared/profiles/stages.ts';
import { msPerHour } from '../../shared/units.ts';
import type { BandPoint } from '../expect/band.ts';
import { cardinalTemperatureFactor, cultureSet } from '../physics/cardinal-temperature.ts';
import type { Bed } from '../profiles/bed.ts';
import type { PileSetup } from '../profiles/pile-setup.ts';
import { type Air, isAirProbed } from './air.ts';
import type { BatchPhase } from './batch-phase.ts';
import { isSeldom } from './between.ts';
import type { Disturbance } from './disturbance.ts';
import { hasEaten } from './eaten.ts';
import type { WaterState } from './follow-water.ts';
import { isByHand } from './hand-reading.ts';
import { airAtHour, coreAtHour, type Hours } from './hours.ts';
import type { Positions } from './position.ts';
import { coarseStepK } from './stuck.ts';
import { stepOf } from './track.ts';
import { mostPerH, workPerK } from './work.ts';
import type { Work } from './work-done.ts';

const stallReasons = ['never-warmed', 'below-what-it-should', 'went-out', 'warm-but-idle'] as const;
export type StallWhy = (typeof stallReasons)[number];

export const stallSchema = z.object({
  /** Hours in a row that look like a stall [h], and why. */
  forH: z.number(),
  why: z.enum(stallReasons).nullable(),
});
type Stall = z.infer<typeof stallSchema>;

/** Hours in a row that make it a stall [h]; our own choice, so that a cold night does not. */
export const stallAfterH = 7;
/** A warm bed may rest between two humps: it is given longer [h]; our own choice, no source. */
export const warmStallAfterH = 12;
/** After an act a heap is given this long to warm again [h]; our own choice, no source. */
export const actExplainsH = 18;
/** What cannot burn this share of its food a day is too cold to work [per day]. From the development piles of the detection bench; no source found. */
const couldBurnPerDay = 0.05;
/** How far the air beside the bed may be off for what a bed of its warmth is, as probes have it and by any other way [K]; our own choice, no source. */
const airErrorK = { probe: 1, other: 3 } as const;
/**
 * Depth to which a day’s swing of the air comes through a damp bed, weakened to a third [m]: sqrt(2 a / w) with a = 2e-7 m²/s
 * (0.28 W/m K over 185 kg/m³ of bran at 60 %) and one turn a day.
 */
const dayDepthM = 0.075;
/**
 * Repeating one value for so long, a probe may have stuck: until it moves, or is said to be stuck, nothing is counted [ms]; our own
 * choice, no source.
 */
const sameMs = 3 * msPerHour;

/** A stall that stands, of a batch that had its hump and is as old as its stage may be, is its end after so much more [h]; our own choice, no source. */
const stallEndsH = 48;

/** The count goes no higher, so that a stall ends a day after the bed works again [h]; our own choice, no source. */
const mostForH = 48;

export const startStall = (): Stall => ({ forH: 0, why: null });

/** Somebody did something about it: the count begins anew. */
export function calmStall(stall: Stall): void {
  stall.forH = 0;
}

/** What a stall is known by. */
export interface StallSight {
  readonly hours: Readonly<Hours>;
  readonly positions: Readonly<Positions>;
  readonly air: Readonly<Air>;
  readonly work: Readonly<Work>;
  readonly water: Readonly<WaterState>;
  readonly phase: Readonly<BatchPhase>;
  readonly disturbance: Readonly<Disturbance>;
}

interface StallHour {
  readonly coreC: number;
  readonly bed: Bed;
  readonly endMs: number;
}

export function followStall(
  stall: Stall,
  sight: StallSight,
  setup: PileSetup,
  expected: BandPoint | undefined,
  hour: StallHour,
): void {
  if (coreStandsStill(sight.positions)) return;
  const why = whyOfHour(stallStands(stall), sight, setup, expected, hour);
  stall.why = why ?? stall.why;
  const weight = weightOfHour(sight.positions, stall.why);
  // Two steps back for each hour without it, so that one lucky hour does not start the count afresh.
  stall.forH = why === undefined ? Math.max(0, stall.forH - 2 * weight) : Math.min(mostForH, stall.forH + weight);
  if (stall.forH === 0) stall.why = null;
}

/** @param standing A stall that stands is not talked away by the little work a cool heap still does. */
function whyOfHour(
  standing: boolean,
  sight: StallSight,
  setup: PileSetup,
  expected: BandPoint | undefined,
  { coreC: core, bed, endMs }: StallHour,
): StallWhy | undefined {
  const { hours, positions, work, phase, disturbance } = sight;
  const { depthM } = bed;
  const { nearlyDone, humpK, wakingH, coldWakingH, ...limits } = stageProfiles[setup.stage].stall;
  const { isIdleWhenWarm, standingPerDay, slowPerDay } = limits;
  if (!standing && work.most >= nearlyDone) return undefined;
  const ageH = (endMs - setup.startedAtMs) / msPerHour;
  const hadItsHump = phase.highestExcessK >= humpK;
  // Too cold to work it is neither on its way nor at its end: what it shows is the weather, and the warmth it was laid with.
  const couldWork = 24 * mostPerH(core) >= couldBurnPerDay;
  const endsAfterH = setup.limits.lengthMinH + (standing ? stallEndsH : 0);
  if (couldWork && hadItsHump && (ageH >= endsAfterH || (!standing && hasEaten(sight, setup)))) return undefined;
  if (disturbance.atMs !== null && endMs - disturbance.atMs < actExplainsH * msPerHour) return undefined;
  const slow = 1 - Math.min(1, cardinalTemperatureFactor(core, cultureSet) / 0.5);
  if (ageH < wakingH + coldWakingH * slow) return undefined;
  if (couldWork && (ownRiseK(hours, core, 6, depthM) >= 1 || ownRiseK(hours, core, 12, depthM) >= 2)) return undefined;
  const tellingH = tellingSpanH(positions);
  if (couldWork && tellingH > 12 && ownRiseK(hours, core, tellingH, depthM) >= 2) return undefined;
  const idle = work.perDay < standingPerDay;
  if (couldWork && idle && !wouldShow(sight, setup, bed)) return undefined;
  if (isIdleWhenWarm && core >= setup.limits.comfortMinC) return idle ? 'warm-but-idle' : undefined;
  if (idle) return phase.peakExcessK < 6 ? 'never-warmed' : 'went-out';
  if (expected !== undefined && core < expected.p10C && work.perDay < slowPerDay) return 'below-what-it-should';
  return undefined;
}

/**
 * Whether a bed at work would show it: where it is thin, or its air is not measured well, what lies between standing still and working
 * is less than what the air may be off by.
 */
function wouldShow(sight: StallSight, { recipe, stage }: PileSetup, bed: Bed): boolean {
  const { standingPerDay, workingPerDay } = stageProfiles[stage].stall;
  return (
    standingPerDay + 24 * workPerK(recipe, bed) * airErrorK[isAirProbed(sight) ? 'probe' : 'other'] < workingPerDay
  );
}

/** Whether enough hours in a row have looked like a stall. */
export function stallStands({ forH, why }: Readonly<Stall>): boolean {
  return why !== null && forH >= neededH(why);
}

const neededH = (why: StallWhy): number => (why === 'warm-but-idle' ? warmStallAfterH : stallAfterH);

/**
 * A fall between two readings is one sight of the pile, however many hours it took, and nobody saw what made it: it makes no more than
 * this share of a stall, so that the next reading must bear it out [-]; our own choice, no source.
 */
const fallShare = 0.6;

function weightOfHour({ core }: Readonly<Positions>, why: StallWhy | null): number {
  const track = core?.temperature;
  if (track == null || why !== 'went-out' || !isSeldom(track)) return 1;
  const sightH = (track.atMs - track.previousAtMs) / msPerHour;
  return Math.min(1, (fallShare * neededH(why)) / sightH);
}

/** Rise of the core less what the warming air may have put into it through half the bed [K]. */
function ownRiseK(hours: Readonly<Hours>, core: number, backH: number, depthM: number): number {
  const last = hours.done - 1;
  const before = coreAtHour(hours, last - backH);
  if (before === null) return 0;
  const air = airAtHour(hours, last);
  const airBefore = airAtHour(hours, last - backH);
  const airRiseK = air === null || airBefore === null ? 0 : Math.max(0, air - airBefore);
  return core - before - airRiseK * Math.exp(-depthM / 2 / dayDepthM);
}

/**
 * So many readings tell of a slow rise, those of two days at most [h]; where they show coarse steps, those of a day: the real litter
 * heap rose by 0.1 K an hour at its highest, read in halves. Our own choice, no source.
 */
const tellingReadings = 3;
const longestSpanH = 48;
const coarseSpanH = 24;

function tellingSpanH({ core }: Readonly<Positions>): number {
  const track = core?.temperature;
  if (track == null) return 0;
  const leastH = stepOf(track) < coarseStepK ? 0 : coarseSpanH;
  return Math.max(leastH, Math.min(longestSpanH, Math.round((tellingReadings * track.intervalMs) / msPerHour)));
}

/** Whether the core has said the same for so long that it may have stuck: of one that shows coarse steps, that is no sign. */
function coreStandsStill({ core }: Readonly<Positions>): boolean {
  if (core === null || isByHand(core)) return false;
  const track = core.temperature;
  return (
    track != null && track.sameCount > 3 && track.atMs - track.sameSinceMs >= sameMs && stepOf(track) < coarseStepK
  );
}
