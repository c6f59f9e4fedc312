/** Weather as it was measured. */
import type { Air, Weather } from './air.ts';

export interface AirRow extends Partial<Air> {
  readonly atMs: number;
}

const mild: Air = { tempC: 15, rhPct: 70, windMS: 1, sunWM2: 0, rainMmH: 0, cloudFrac: 0.6 };

/** @throws {RangeError} If there is no row or the rows are not in order of time. */
export function measuredAir(rows: readonly AirRow[]): Weather {
  if (rows.length === 0) throw new RangeError('Cannot make weather as it needs at least 1 row: current number is 0');
  let last = mild;
  const known = rows.map((row) => {
    last = { ...last, ...definedOnly(row) };
    return { atMs: row.atMs, air: last };
  });
  known.forEach((row, i) => {
    const before = known[i - 1];
    if (before !== undefined && row.atMs <= before.atMs) {
      throw new RangeError(
        `Cannot make weather as rows must be in order of time: row ${i} is not after the one before`,
      );
    }
  });
  let at = 0;
  return (atMs) => {
    // Runs ask in order of time, so the place is nearly always the last one or the next.
    while (at > 0 && (known[at]?.atMs ?? 0) > atMs) at -= 1;
    while ((known[at + 1]?.atMs ?? Number.POSITIVE_INFINITY) <= atMs) at += 1;
    const a = known[at];
    const b = known[at + 1];
    if (a === undefined) return mild;
    if (b === undefined || atMs <= a.atMs) return a.air;
    const x = (atMs - a.atMs) / (b.atMs - a.atMs);
    const between = (key: keyof Air) => a.air[key] + (b.air[key] - a.air[key]) * x;
    return {
      tempC: between('tempC'),
      rhPct: between('rhPct'),
      windMS: between('windMS'),
      sunWM2: between('sunWM2'),
      // Rain is a total of the hour that ends at the row.
      rainMmH: b.air.rainMmH,
      cloudFrac: between('cloudFrac'),
    };
  };
}

function definedOnly({ tempC, rhPct, windMS, sunWM2, rainMmH, cloudFrac }: AirRow): Partial<Air> {
  const all = { tempC, rhPct, windMS, sunWM2, rainMmH, cloudFrac };
  return Object.fromEntries(Object.entries(all).filter(([, value]) => value !== undefined && Number.isFinite(value)));
}
