/** What the readings take up, and what downsampling does to them, in sentences. */
import type { KeepingAnswer } from '../../../../shared/contracts/retention.ts';
import { sizeWords } from '../../ui/format/amount.ts';
import type { RetentionWords } from './use-retention-words.ts';

type Words = Pick<RetentionWords, 'text'>;

/** What is chosen, for those who only look. */
export function standsNow(keptDays: number | null, { text }: Words): string {
  return keptDays === null
    ? text('page-retention.now.always')
    : text('page-retention.now.days', { keptDayCount: keptDays });
}

export function takenUp(
  { rows, bytes, year }: Pick<KeepingAnswer, 'rows' | 'bytes' | 'year'>,
  { text }: Words,
): string {
  const now = { readingCount: rows, sizeText: sizeWords(bytes) };
  if (year.rows === 0) return text('page-retention.taken.none-new', now);
  const { downsampledBytes } = year;
  return text('page-retention.taken', {
    ...now,
    yearText: sizeWords(year.bytes),
    isReduced: downsampledBytes !== null,
    reducedText: sizeWords(downsampledBytes ?? 0),
  });
}

/** What one age would free now. */
export function wouldFreeWords({ rows, bytes }: { rows: number; bytes: number }, { text }: Words): string {
  return text('page-retention.free', { readingCount: rows, sizeText: sizeWords(bytes) });
}

export const staysExact = ['comparisons', 'charts', 'records'] as const;

export const isLost = ['readings', 'hours', 'logs'] as const;
