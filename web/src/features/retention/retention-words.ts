/** What the readings take up, and what downsampling does to them, in sentences. */
import type { KeepingAnswer } from '../../../../shared/contracts/retention.ts';
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
  const now = { readingCount: rows, takenBytes: bytes };
  if (year.rows === 0) return text('page-retention.taken.none-new', now);
  const { downsampledBytes } = year;
  return text('page-retention.taken', {
    ...now,
    yearBytes: year.bytes,
    reduced: downsampledBytes === null ? 'other' : downsampledBytes === 0 ? 'none' : 'some',
    reducedBytes: downsampledBytes ?? 0,
  });
}

/** What one age would free now. */
export function wouldFreeWords({ rows, bytes }: { rows: number; bytes: number }, { text }: Words): string {
  return text('page-retention.free', { readingCount: rows, freedBytes: bytes });
}

export const staysExact = ['comparisons', 'charts', 'records'] as const;

export const isLost = ['readings', 'hours', 'logs'] as const;
