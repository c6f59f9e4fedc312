/**
 * Everything the judge remembers of a pile, as plain data that survives JSON. It never grows without end: hourly values
 * are kept for fourteen days. Types come from the schemas by which a kept state is read (core/session/kept-state.ts); nothing
 * is checked while a pile is judged.
 */

import { z } from 'zod';
import { forEachPileQuantity } from '../../shared/quantity.ts';
import { phaseSchema } from '../../shared/warning.ts';
import { forecastSchema } from '../forecast/forecast.ts';
import { ownRecordSchema, startRecord } from '../forecast/own-record.ts';
import type { PileSetup } from '../profiles/pile-setup.ts';
import { heatMemorySchema } from './heat-memory.ts';
import { interventions } from './interventions.ts';
import { phaseReasons } from './phase.ts';
import { trackSchema } from './track.ts';

const positionStateSchema = z.object({
  ...forEachPileQuantity(() => trackSchema.nullable()),
  /** Believed temperatures of the running hour. */
  hourSum: z.number(),
  hourCount: z.number(),
  /** Mean of the last hour that had readings [°C]. */
  hourMeanC: z.number().nullable(),
  /** Change of that mean from the hour before [K]; null when there was none. */
  hourStepK: z.number().nullable(),
  /** The same an hour earlier [K]; 0 when there was none. */
  stepBeforeK: z.number(),
  /** Volumetric moisture at the end of the hour before [%]. */
  moistureBeforePct: z.number().nullable(),
  /** Eased over a day [°C]. */
  dayMeanC: z.number().nullable(),
  /** Over the limit, or a core as near to it as a probe may be off; with the deadband counted in. */
  overheated: z.boolean(),
  /** What it has been through; null in the air, and before any temperature. */
  heat: heatMemorySchema.nullable(),
  /** Hours in a row with the pore air clearly off saturation. */
  dryAirH: z.number(),
  /** Since when it has read like the air beside the pile after being much warmer; null while it does not. */
  outSinceMs: z.number().nullable(),
  /** Highest hourly mean above the air in about the last half day, faded [K]. */
  warmthK: z.number(),
  /** The same an hour earlier [K]. */
  warmthBeforeK: z.number(),
  /** Hours for which it is still suspected of having been pulled out. */
  suspectH: z.number(),
  /** Hours in a row within a degree of the air, and how far the air swung meanwhile [°C]. */
  nearAirH: z.number(),
  airLowC: z.number(),
  airHighC: z.number(),
});
export type PositionState = z.infer<typeof positionStateSchema>;

const placeSchema = positionStateSchema.nullable();
const hourlySchema = z.array(z.number().nullable());

const stallReasons = ['never-warmed', 'below-what-it-should', 'went-out', 'warm-but-idle'] as const;
export type StallWhy = (typeof stallReasons)[number];

export const judgeStateSchema = z.object({
  /** Newest reading time seen; the start before any. */
  atMs: z.number(),
  /** Whole hours since the start that are closed. */
  hoursDone: z.number(),
  positions: z.object({
    core: placeSchema,
    top: placeSchema,
    base: placeSchema,
    edge: placeSchema,
    air: placeSchema,
  }),
  /**
   * Core and air, hour by hour, in whole hundredths, which take a third of the memory of fractions [0.01 °C]; `firstHour` is
   * the hour of the first entry; null where nothing was measured.
   */
  firstHour: z.number(),
  coreCentiByHour: hourlySchema,
  airCentiByHour: hourlySchema,
  /** Core at the end of each hour, straight between the readings on either side; null where they lie too far apart. */
  coreEndCentiByHour: hourlySchema,
  /** Air as the pile feels it: eased over six hours, and over a day [°C]. */
  airC: z.number().nullable(),
  airDayC: z.number().nullable(),
  /** Top and base in the hour before, where they were measured [°C]. */
  heatBefore: z.object({ topC: z.number().nullable(), baseC: z.number().nullable() }),
  startC: z.number().nullable(),
  peakC: z.number().nullable(),
  /** Of the running hump, and of the whole batch [K]. */
  peakExcessK: z.number(),
  highestExcessK: z.number(),
  peakAtMs: z.number(),
  phase: phaseSchema,
  phaseReason: z.enum(phaseReasons),
  phaseSinceMs: z.number(),
  /** Hours weighted by how well the culture could work in them. */
  activityH: z.number(),
  /** Share of the food burnt so far, and per day over about the last half day, by the heat it must have made [-]. */
  workDone: z.number(),
  workPerDay: z.number(),
  /** The most that share has been: a bed that cools faster than reckoned undoes no work. */
  workDoneMost: z.number(),
  /** Estimated water per dry matter [-] and its standard deviation. */
  waterKgKg: z.number(),
  waterSd: z.number(),
  /** How many notes, and acts of the setup, have been taken in. */
  notedDone: z.number(),
  actsDone: z.number(),
  /** Closed hours in which nobody measured the core, since a sample last counted them in its doubt. */
  unwatchedH: z.number(),
  /** Last act that explains a drop (logged, or seen in the curve). */
  disturbedAtMs: z.number().nullable(),
  disturbedBy: z.enum(['logged', 'seen']).nullable(),
  /** Hands seen in the curves and not yet in the acts, of the last two days; the journal may offer them. */
  seenHands: z.array(z.object({ kind: z.enum(interventions), atMs: z.number() })),
  /** The last turn after the heat had passed, the core then, and how far it rose since. */
  lateTurnAtMs: z.number().nullable(),
  lateTurnC: z.number(),
  riseSinceTurnK: z.number(),
  /** Hours in a row that look like a stall, and why. */
  stallH: z.number(),
  stallWhy: z.enum(stallReasons).nullable(),
  /** Hours in a row with a cold core, and with top and base far apart. */
  coldH: z.number(),
  unevenH: z.number(),
  /** What explains that top and base lie apart: a probe that may be out of the pile. */
  unevenBy: z.literal('probe-out').nullable(),
  /** Made with the first reading after an hour has closed; null while there is nothing to make it from. */
  forecast: forecastSchema.nullable(),
  /** How well each way of looking ahead did on this pile. */
  record: ownRecordSchema,
  /** Likely to pass the limit within half a day, until that is clearly unlikely. */
  soonOver: z.boolean(),
  /** Dry by the balance, with the deadband counted in. */
  dry: z.boolean(),
});
export type JudgeState = z.infer<typeof judgeStateSchema>;

/** So far back hours are kept [h]: two weeks, longer than any span that is looked at; our own choice. */
export const keptHours = 336;

export function emptyState(setup: PileSetup, waterKgKg: number, waterSd: number): JudgeState {
  return {
    atMs: setup.startedAtMs,
    hoursDone: 0,
    positions: { core: null, top: null, base: null, edge: null, air: null },
    firstHour: 0,
    coreCentiByHour: [],
    airCentiByHour: [],
    coreEndCentiByHour: [],
    airC: null,
    airDayC: null,
    heatBefore: { topC: null, baseC: null },
    startC: null,
    peakC: null,
    peakExcessK: 0,
    highestExcessK: 0,
    peakAtMs: setup.startedAtMs,
    phase: 'resting',
    phaseReason: 'just-laid',
    phaseSinceMs: setup.startedAtMs,
    activityH: 0,
    workDone: 0,
    workPerDay: 0,
    workDoneMost: 0,
    waterKgKg,
    waterSd,
    notedDone: 0,
    actsDone: 0,
    unwatchedH: 0,
    disturbedAtMs: null,
    disturbedBy: null,
    seenHands: [],
    lateTurnAtMs: null,
    lateTurnC: 0,
    riseSinceTurnK: 0,
    stallH: 0,
    stallWhy: null,
    coldH: 0,
    unevenH: 0,
    unevenBy: null,
    forecast: null,
    record: startRecord(),
    soonOver: false,
    dry: false,
  };
}

/** The core's mean of an hour counted from the start; null when it was not measured or is no longer kept. */
export function coreAtHour(state: JudgeState, hour: number): number | null {
  return degreesOf(state.coreCentiByHour[hour - state.firstHour]);
}

/** The core at the end of an hour counted from the start; null when it was not measured or is no longer kept. */
export function coreEndOfHour(state: JudgeState, hour: number): number | null {
  return degreesOf(state.coreEndCentiByHour[hour - state.firstHour]);
}

/** The same of the air beside the pile. */
export function airAtHour(state: JudgeState, hour: number): number | null {
  return degreesOf(state.airCentiByHour[hour - state.firstHour]);
}

function degreesOf(centi: number | null | undefined): number | null {
  return centi == null ? null : centi / 100;
}
