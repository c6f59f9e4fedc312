/** What the readings take up, and what downsampling does to them, in sentences. */
import type { KeepingAnswer } from '../../../../shared/contracts/retention.ts';
import { manyWords, sizeWords } from '../../ui/format/amount.ts';

const daysOfYear = 365;

/** "a year", "two years", "90 days". */
export function keptWords(days: number): string {
  if (days === daysOfYear) return 'a year';
  if (days === 2 * daysOfYear) return 'two years';
  return `${manyWords(days)} days`;
}

/** What is chosen, for those who only look. */
export function standsNow(keptDays: number | null): string {
  return keptDays === null
    ? 'Every reading is kept as long as there is room.'
    : `Every reading is kept for ${keptWords(keptDays)}.`;
}

export function takenUp({ rows, bytes, year }: Pick<KeepingAnswer, 'rows' | 'bytes' | 'year'>): string {
  const kept = rows === 0 ? 'No single reading is' : rows === 1 ? 'One reading is' : `${manyWords(rows)} readings are`;
  const now = `${kept} kept as ${rows > 1 ? 'they' : 'it'} came, ${sizeWords(bytes)} on disk with all rollups`;
  if (year.rows === 0) return `${now}. None came in the last seven days.`;
  const reduced =
    year.downsampledBytes === null ? '' : `, of which ${sizeWords(year.downsampledBytes)} stay once it is reduced`;
  return `${now}. At the pace of the last seven days another year takes up ${sizeWords(year.bytes)}${reduced}.`;
}

/** What one age would free now. */
export function wouldFreeWords({ rows, bytes }: { rows: number; bytes: number }): string {
  return rows === 0 ? 'nothing is that old yet' : `${manyWords(rows)} readings are older, about ${sizeWords(bytes)}`;
}

export const staysExact = [
  'Comparisons of batches, their measures, and the closest past batches.',
  'Charts in steps of ten minutes and coarser, with lowest, mean and highest.',
  'The highest temperature of every batch, and everything people wrote.',
] as const;

export const isLost = [
  'Single readings: of every ten minutes their lowest, mean and highest stay, and how many there were.',
  'Hours at a temperature in records are counted from whole ten minutes, so they may come out a little fewer.',
  'Old logs of the same probe can no longer be brought in for that time. Bring them in first, or under a probe name of their own.',
] as const;
