/**
 * What stands in the way of one watched pile, gravest first.
 */
import { StoreError } from '../../shared/errors.ts';
import type { PileTroubleCode } from '../../shared/pile-trouble.ts';
import { rowWords, type UnreadableRow } from '../../shared/store/unreadable.ts';
import { codeOf, detailOf, type Failing } from './failing.ts';

export interface TroubleSeen {
  readonly code: PileTroubleCode;
  /** Whether the pile is watched all the same. */
  readonly judged: boolean;
  readonly sinceMs: number;
  readonly rowCount: number;
  readonly details: readonly string[];
}

export interface TroubleBasis {
  /** Reading its records, and its readings since the batch was laid. */
  readonly opening: Failing;
  readonly evaluating: Failing;
  readonly keeping: Failing;
  readonly openedAtMs: number;
  /** An evaluation of it does not end. */
  readonly hangsSinceMs: number | undefined;
  readonly unreadable: readonly UnreadableRow[];
}

const mostDetails = 5;

export function troubleSeen(basis: TroubleBasis): TroubleSeen | null {
  const { opening, evaluating, keeping, openedAtMs, hangsSinceMs, unreadable } = basis;
  for (const failing of [opening, evaluating]) {
    if (!failing.stands) continue;
    const { error, sinceMs } = failing;
    return { code: codeOf(error), judged: false, sinceMs, rowCount: 1, details: [detailOf(error)] };
  }
  if (hangsSinceMs !== undefined) {
    const details = [detailOf(new StoreError('A store does not answer'))];
    return { code: 'not-judged', judged: false, sinceMs: hangsSinceMs, rowCount: 0, details };
  }
  if (keeping.stands) {
    const details = [detailOf(keeping.error)];
    return { code: 'not-kept', judged: true, sinceMs: keeping.sinceMs, rowCount: 0, details };
  }
  if (unreadable.length === 0) return null;
  return {
    code: unreadable.some(({ table }) => table === 'batch') ? 'batch-unreadable' : 'records-unreadable',
    judged: true,
    sinceMs: openedAtMs,
    rowCount: unreadable.length,
    details: unreadable.slice(0, mostDetails).map(rowWords),
  };
}
