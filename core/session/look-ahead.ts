/**
 * The core at each hour's end, and the forecast made from there. It never looks ahead from an old reading: a probe that
 * speaks once an hour is waited for.
 */
import { msPerHour } from '../../shared/units.ts';
import { coreAtHour, coreEndOfHour, type JudgeState } from '../estimate/state.ts';
import type { ExpectedBand } from '../expect/band.ts';
import { forecastCore } from '../forecast/forecast.ts';
import { scoreRecord } from '../forecast/own-record.ts';
import { bedAt } from '../profiles/bed.ts';
import type { PileSetup } from '../profiles/pile-setup.ts';
import { soonOver } from '../warnings/soon-sight.ts';

/** Readings further apart than this say nothing of the hours between them. */
const apartMs = 3.5 * msPerHour;
/** Beds thinner than this follow day and night [m]. */
const shallowM = 0.2;

/**
 * Writes down the core at the end of every hour that lies between two readings, on the straight line between them.
 *
 * @returns Whether the newest closed hour is among them.
 */
export function markHourEnds(
  state: JudgeState,
  startedAtMs: number,
  beforeC: number,
  beforeMs: number,
  nowC: number,
  nowMs: number,
): boolean {
  if (beforeMs >= startedAtMs + state.hoursDone * msPerHour) return false; // most readings: no hour has ended since
  const apart = nowMs - beforeMs > apartMs;
  const firstHour = Math.floor((beforeMs - startedAtMs) / msPerHour);
  for (let hour = Math.max(firstHour, state.firstHour); hour < state.hoursDone; hour += 1) {
    const share = (startedAtMs + (hour + 1) * msPerHour - beforeMs) / (nowMs - beforeMs);
    state.coreEndCentiByHour[hour - state.firstHour] = apart
      ? null
      : Math.round(100 * (beforeC + share * (nowC - beforeC)));
  }
  return !apart;
}

/** Looks a day ahead from the end of the hour that has just closed. */
export function lookAhead(state: JudgeState, setup: PileSetup, band: ExpectedBand | null): void {
  state.forecast = null;
  const hour = state.hoursDone - 1;
  const meanC = coreAtHour(state, hour);
  const endMs = setup.startedAtMs + state.hoursDone * msPerHour;
  const nowC = coreEndOfHour(state, hour);
  if (nowC === null || meanC === null || state.airC === null) return;
  const bed = bedAt(setup, endMs);
  const pile = {
    seen: (at: number) => coreEndOfHour(state, at),
    hour,
    atMs: endMs,
    nowC,
    airC: state.airC,
    depthM: bed.depthM,
    shallow: bed.depthM < shallowM,
    soil: setup.stage === 'soil',
    quietH: state.disturbedAtMs === null ? Number.POSITIVE_INFINITY : (endMs - state.disturbedAtMs) / msPerHour,
    limitC: setup.limits.actC,
  };
  scoreRecord(state.record, pile);
  state.forecast = band === null ? null : forecastCore(band, pile, state.record);
  state.soonOver = soonOver(state.soonOver, state, meanC, setup.limits.actC);
}
