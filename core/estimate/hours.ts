/** The pile's clock and its hours: core and air, hour by hour from the start. Kept for fourteen days, so that it never grows without end. */
import { z } from 'zod';
import { msPerHour } from '../../shared/units.ts';
import { nearK } from '../profiles/passed-heat.ts';

const hourlySchema = z.array(z.number().nullable());

/**
 * In whole hundredths, which take a third of the memory of fractions [0.01 °C]; null where nothing was measured.
 */
export const hoursSchema = z.object({
  /** Newest reading time seen; the start before any. */
  atMs: z.number(),
  /** Whole hours since the start that are closed. */
  done: z.number(),
  /** The hour of the first entry of each list. */
  first: z.number(),
  coreCenti: hourlySchema,
  airCenti: hourlySchema,
  /** Core at the end of each hour, straight between the readings on either side; null where they lie too far apart. */
  coreEndCenti: hourlySchema,
});
export type Hours = z.infer<typeof hoursSchema>;

/** So far back hours are kept [h]: two weeks, longer than any span that is looked at; our own choice. */
const keptHours = 336;
/** A gap up to this long is bridged with the last hour's value [h]; our own choice, no source. */
const bridgedH = 6;

export function startHours(startedAtMs: number): Hours {
  return { atMs: startedAtMs, done: 0, first: 0, coreCenti: [], airCenti: [], coreEndCenti: [] };
}

export function hear(hours: Hours, atMs: number): void {
  if (atMs > hours.atMs) hours.atMs = atMs;
}

/** Counts one more hour as closed. @returns When it ended. */
export function endHour(hours: Hours, startedAtMs: number): number {
  hours.done += 1;
  return startedAtMs + hours.done * msPerHour;
}

/** Writes down the means of the hour that has just been closed [°C]. */
export function keepHour(hours: Hours, coreC: number | null, airC: number | null): void {
  hours.coreCenti.push(coreC === null ? null : Math.round(coreC * 100));
  hours.airCenti.push(airC === null ? null : Math.round(airC * 100));
  hours.coreEndCenti.push(null);
  if (hours.coreCenti.length > keptHours) {
    hours.coreCenti.shift();
    hours.airCenti.shift();
    hours.coreEndCenti.shift();
    hours.first += 1;
  }
}

interface CoreReading {
  readonly valueC: number;
  readonly atMs: number;
}

/**
 * Writes down the core at the end of every hour that lies between two readings, on the straight line between them.
 *
 * @param bridgedMs Readings further apart say nothing of the hours between them.
 * @returns Whether the newest closed hour is among them.
 */
export function markHourEnds(
  hours: Hours,
  startedAtMs: number,
  { valueC: beforeC, atMs: beforeMs }: CoreReading,
  { valueC: nowC, atMs: nowMs }: CoreReading,
  bridgedMs: number,
): boolean {
  if (beforeMs >= startedAtMs + hours.done * msPerHour) return false; // most readings: no hour has ended since
  const apart = nowMs - beforeMs > bridgedMs;
  const firstHour = Math.floor((beforeMs - startedAtMs) / msPerHour);
  for (let hour = Math.max(firstHour, hours.first); hour < hours.done; hour += 1) {
    const share = (startedAtMs + (hour + 1) * msPerHour - beforeMs) / (nowMs - beforeMs);
    hours.coreEndCenti[hour - hours.first] = apart ? null : Math.round(100 * (beforeC + share * (nowC - beforeC)));
  }
  return !apart;
}

/** The core's mean of an hour counted from the start; null when it was not measured or is no longer kept. */
export function coreAtHour(hours: Readonly<Hours>, hour: number): number | null {
  return degreesOf(hours.coreCenti[hour - hours.first]);
}

/** The core at the end of an hour counted from the start; null when it was not measured or is no longer kept. */
export function coreEndOfHour(hours: Readonly<Hours>, hour: number): number | null {
  return degreesOf(hours.coreEndCenti[hour - hours.first]);
}

/** The same of the air beside the pile. */
export function airAtHour(hours: Readonly<Hours>, hour: number): number | null {
  return degreesOf(hours.airCenti[hour - hours.first]);
}

function degreesOf(centi: number | null | undefined): number | null {
  return centi == null ? null : centi / 100;
}

/** The core of the last hour in which it was measured, where that is not too long ago. */
export function heldCore(hours: Readonly<Hours>): number | null {
  for (let back = 1; back <= bridgedH; back += 1) {
    const value = coreAtHour(hours, hours.done - 1 - back);
    if (value !== null) return value;
  }
  return null;
}

/** Hours in a row, up to twelve, in which the core was within 5 °C of the air. */
export function nearAirHours(hours: Readonly<Hours>, airDayC: number | null): number {
  if (airDayC === null) return 0;
  let count = 0;
  for (let back = 1; back <= 12; back += 1) {
    const core = coreAtHour(hours, hours.done - back);
    if (core === null || core - airDayC > nearK) break;
    count += 1;
  }
  return count;
}

/**
 * Rise of the core over `backH` hours up to the hour just closed, or since the start, at the same pace where it was measured only
 * nearly so long ago [K]; null where it was not.
 */
export function riseOver(hours: Readonly<Hours>, nowC: number, backH: number): number | null {
  const last = hours.done - 1;
  for (let off = 0; off <= backH / 2; off += 1) {
    for (const backNowH of off === 0 ? [backH] : [backH + off, backH - off]) {
      const beforeC = coreAtHour(hours, Math.max(0, last - backNowH));
      if (beforeC !== null) return ((nowC - beforeC) * backH) / Math.max(backH, backNowH);
    }
  }
  return null;
}

/** Rise of the core over the last three closed hours [K/h]. */
export function riseKPerH(hours: Readonly<Hours>): number | null {
  const now = coreAtHour(hours, hours.done - 1);
  const before = coreAtHour(hours, hours.done - 4);
  return now === null || before === null ? null : (now - before) / 3;
}
