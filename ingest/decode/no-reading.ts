/** Words by which devices say that they have no reading now. */
const words = new Set(['', 'nan', 'null', 'none', 'unknown', 'unavailable']);

/** Whether this is none of those, and something a value may be read from: switches and words for "nothing now" are not. */
export function isSaid(found: unknown): boolean {
  if (typeof found === 'string') return !words.has(found.trim().toLowerCase());
  return typeof found === 'number' && !Number.isNaN(found);
}
