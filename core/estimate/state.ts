/**
 * Everything the judge remembers of a pile, as plain data that survives JSON. It never grows without end: hourly values
 * are kept for fourteen days.
 */

import type { Position } from '../../shared/names.ts';
import type { Phase } from '../../shared/warning.ts';
import type { Forecast } from '../forecast/forecast.ts';
import { type OwnRecord, startRecord } from '../forecast/own-record.ts';
import type { PileSetup } from '../profiles/pile-setup.ts';
import type { HeatMemory } from './heat-memory.ts';
import type { Intervention } from './interventions.ts';
import type { PhaseReason } from './phase.ts';
import type { Track } from './track.ts';

export interface PositionState {
  temperature: Track | null;
  humidity: Track | null;
  moisture: Track | null;
  co2: Track | null;
  /** Believed temperatures of the running hour. */
  hourSum: number;
  hourCount: number;
  /** Mean of the last hour that had readings [°C]. */
  hourMeanC: number | null;
  /** Change of that mean from the hour before [K]; null when there was none. */
  hourStepK: number | null;
  /** The same an hour earlier [K]; 0 when there was none. */
  stepBeforeK: number;
  /** Volumetric moisture at the end of the hour before [%]. */
  moistureBeforePct: number | null;
  /** Eased over a day [°C]. */
  dayMeanC: number | null;
  /** Over the limit, or a core as near to it as a probe may be off; with the deadband counted in. */
  overheated: boolean;
  /** What it has been through; null in the air, and before any temperature. */
  heat: HeatMemory | null;
  /** Hours in a row with the pore air clearly off saturation. */
  dryAirH: number;
  /** Since when it has read like the air beside the pile after being much warmer; null while it does not. */
  outSinceMs: number | null;
  /** Highest hourly mean above the air in about the last half day, faded [K]. */
  warmthK: number;
  /** The same an hour earlier [K]. */
  warmthBeforeK: number;
  /** Hours for which it is still suspected of having been pulled out. */
  suspectH: number;
  /** Hours in a row within a degree of the air, and how far the air swung meanwhile [°C]. */
  nearAirH: number;
  airLowC: number;
  airHighC: number;
}

export interface JudgeState {
  readonly version: 6;
  /** Newest reading time seen; the start before any. */
  atMs: number;
  /** Whole hours since the start that are closed. */
  hoursDone: number;
  positions: Record<Position, PositionState | null>;
  /**
   * Core and air, hour by hour, in whole hundredths, which take a third of the memory of fractions [0.01 °C]; `firstHour` is
   * the hour of the first entry; null where nothing was measured.
   */
  firstHour: number;
  coreCentiByHour: (number | null)[];
  airCentiByHour: (number | null)[];
  /** Core at the end of each hour, straight between the readings on either side; null where they lie too far apart. */
  coreEndCentiByHour: (number | null)[];
  /** Air as the pile feels it: eased over six hours, and over a day [°C]. */
  airC: number | null;
  airDayC: number | null;
  /** Top and base in the hour before, where they were measured [°C]. */
  heatBefore: { readonly topC: number | null; readonly baseC: number | null };
  startC: number | null;
  peakC: number | null;
  /** Of the running hump, and of the whole batch [K]. */
  peakExcessK: number;
  highestExcessK: number;
  peakAtMs: number;
  phase: Phase;
  phaseReason: PhaseReason;
  phaseSinceMs: number;
  /** Hours weighted by how well the culture could work in them. */
  activityH: number;
  /** Share of the food burnt so far, and per day over about the last half day, by the heat it must have made [-]. */
  workDone: number;
  workPerDay: number;
  /** The most that share has been: a bed that cools faster than reckoned undoes no work. */
  workDoneMost: number;
  /** Estimated water per dry matter [-] and its standard deviation. */
  waterKgKg: number;
  waterSd: number;
  /** How many notes, and acts of the setup, have been taken in. */
  notedDone: number;
  actsDone: number;
  /** Closed hours in which nobody measured the core, since a sample last counted them in its doubt. */
  unwatchedH: number;
  /** Last act that explains a drop (logged, or seen in the curve). */
  disturbedAtMs: number | null;
  disturbedBy: 'logged' | 'seen' | null;
  /** Hands seen in the curves and not yet in the acts, of the last two days; the journal may offer them. */
  seenHands: { readonly kind: Intervention; readonly atMs: number }[];
  /** The last turn after the heat had passed, the core then, and how far it rose since. */
  lateTurnAtMs: number | null;
  lateTurnC: number;
  riseSinceTurnK: number;
  /** Hours in a row that look like a stall, and why. */
  stallH: number;
  stallWhy: StallWhy | null;
  /** Hours in a row with a cold core, and with top and base far apart. */
  coldH: number;
  unevenH: number;
  /** What explains that top and base lie apart: a probe that may be out of the pile. */
  unevenBy: 'probe-out' | null;
  /** Made with the first reading after an hour has closed; null while there is nothing to make it from. */
  forecast: Forecast | null;
  /** How well each way of looking ahead did on this pile. */
  record: OwnRecord;
  /** Likely to pass the limit within half a day, until that is clearly unlikely. */
  soonOver: boolean;
  /** Dry by the balance, with the deadband counted in. */
  dry: boolean;
}

export type StallWhy = 'never-warmed' | 'below-what-it-should' | 'went-out' | 'warm-but-idle';

/** So far back hours are kept [h]: two weeks, longer than any span that is looked at; our own choice. */
export const keptHours = 336;

export function emptyState(setup: PileSetup, waterKgKg: number, waterSd: number): JudgeState {
  return {
    version: 6,
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
