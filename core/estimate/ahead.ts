/**
 * What lies ahead of the core, seen from the end of the last hour. It never looks ahead from an old reading: a probe that
 * speaks once an hour is waited for.
 */
import { z } from 'zod';
import { msPerHour } from '../../shared/units.ts';
import type { ExpectedBand } from '../expect/band.ts';
import { forecastCore, forecastSchema } from '../forecast/forecast.ts';
import { ownRecordSchema, scoreRecord, startRecord } from '../forecast/own-record.ts';
import { bedAt, shallowM } from '../profiles/bed.ts';
import type { PileSetup } from '../profiles/pile-setup.ts';
import type { Air } from './air.ts';
import type { Disturbance } from './disturbance.ts';
import { coreAtHour, coreEndOfHour, type Hours } from './hours.ts';
import type { Positions } from './position.ts';
import { passesUnseen, soonOver } from './soon-over.ts';
import type { Work } from './work-done.ts';

export const aheadSchema = z.object({
  /** Made with the first reading after an hour has closed; null while there is nothing to make it from. */
  forecast: forecastSchema.nullable(),
  /** How well each way of looking ahead did on this pile. */
  record: ownRecordSchema,
  /** Likely to pass the limit within half a day, until that is clearly unlikely. */
  soonOver: z.boolean(),
});
type Ahead = z.infer<typeof aheadSchema>;

export const startAhead = (): Ahead => ({ forecast: null, record: startRecord(), soonOver: false });

/** An hour in which nothing was seen: what was foretold before it no longer counts. */
export function forgetForecast(ahead: Ahead): void {
  ahead.forecast = null;
}

/** What it is looked ahead from. */
export interface AheadSight {
  readonly hours: Readonly<Hours>;
  readonly air: Readonly<Air>;
  readonly disturbance: Readonly<Disturbance>;
  readonly positions: Readonly<Positions>;
  readonly work: Readonly<Work>;
}

/** Looks a day ahead from the end of the hour that has just closed. */
export function stepAhead(
  ahead: Ahead,
  { hours, air, disturbance, positions, work }: AheadSight,
  setup: PileSetup,
  band: ExpectedBand | null,
): void {
  ahead.forecast = null;
  const hour = hours.done - 1;
  const meanC = coreAtHour(hours, hour);
  const endMs = setup.startedAtMs + hours.done * msPerHour;
  const nowC = coreEndOfHour(hours, hour);
  if (nowC === null || meanC === null || air.feltC === null) return;
  const bed = bedAt(setup, endMs);
  const pile = {
    seen: (at: number) => coreEndOfHour(hours, at),
    hour,
    atMs: endMs,
    nowC,
    airC: air.feltC,
    depthM: bed.depthM,
    shallow: bed.depthM < shallowM,
    soil: setup.stage === 'soil',
    quietH: disturbance.atMs === null ? Number.POSITIVE_INFINITY : (endMs - disturbance.atMs) / msPerHour,
    limitC: setup.limits.actC,
    workPerDay: work.perDay,
    workDone: work.done,
  };
  scoreRecord(ahead.record, pile);
  ahead.forecast = band === null ? null : forecastCore(band, pile, ahead.record);
  const { actC } = setup.limits;
  ahead.soonOver =
    passesUnseen(positions.core?.temperature ?? null, ahead.forecast, actC) ||
    soonOver(ahead.soonOver, hours, ahead.forecast, meanC, actC);
}
