/**
 * The season a batch was laid in, by the months of its hemisphere. It never asks the weather: these are the three-month
 * seasons of meteorologists; a grower may name each.
 */
import { monthOf } from '../../shared/zoned-time.ts';

const seasonNames = ['winter', 'spring', 'summer', 'autumn'] as const;
type SeasonName = (typeof seasonNames)[number];

export interface Season {
  readonly id: string;
  readonly season: SeasonName;
  /** Year in which it began. */
  readonly year: number;
  /** E.g. "summer 2031", "winter 2031/32": a season over the turn of the year carries both. */
  readonly name: string;
}

export interface Location {
  /** South of the equator below 0; taken as north when nobody said. */
  readonly latitude: number | null;
  readonly timeZone: string | null;
}

/**
 * @example seasonOf(Date.UTC(2031, 0, 15), { latitude: -35, timeZone: 'UTC' }).name // => "summer 2030/31"
 */
export function seasonOf(atMs: number, { latitude, timeZone }: Location): Season {
  const { year, month } = monthOf(atMs, timeZone ?? 'UTC');
  const quarter = Math.floor((month % 12) / 3); // December to February is 0
  const south = latitude !== null && latitude < 0;
  const season = seasonNames[(quarter + (south ? 2 : 0)) % 4] as SeasonName;
  const overTurn = quarter === 0;
  const began = overTurn && month < 3 ? year - 1 : year;
  const years = overTurn ? `${began}/${String((began + 1) % 100).padStart(2, '0')}` : String(began);
  return { id: `${began}-${season}`, season, year: began, name: `${season} ${years}` };
}
