import { minus } from '../../../shared/temperature.ts';

/**
 * A number as typed, with point or comma; undefined while empty, NaN when it is no number, so that it is refused in words and never
 * dropped.
 *
 * @example readNumber('12,5') // => 12.5
 */
export function readNumber(text: string): number | undefined {
  if (text.trim() === '') return undefined;
  const value = Number(text.trim().replace(',', '.').replace(minus, '-'));
  return Number.isFinite(value) ? value : Number.NaN;
}
