/**
 * Batches from the best to the worst. A person's verdict goes before every figure, and what nobody judged has no place among
 * the judged: it is never taken for good.
 */
import type { ComparedBatch } from '../../shared/contracts/seasons.ts';
import { type Verdict, verdicts } from '../../shared/verdict.ts';
import type { BatchMeasures } from './measure-batch.ts';

export interface Judged extends ComparedBatch {
  readonly verdict: NonNullable<ComparedBatch['verdict']>;
}

/**
 * Within one verdict the batch goes first over which warnings stood for fewer whole hours, then the one whose core was in its
 * comfortable band for more of what was measured; our own order, no source. What was not measured comes last.
 */
export function ranked(batches: readonly ComparedBatch[]): Judged[] {
  return batches
    .filter(isJudged)
    .sort(
      (one, other) =>
        placeOf(one) - placeOf(other) ||
        lessFirst(wholeHours(one), wholeHours(other)) ||
        lessFirst(negated(comfortShare(one)), negated(comfortShare(other))) ||
        other.startedAt.localeCompare(one.startedAt),
    );
}

function isJudged(batch: ComparedBatch): batch is Judged {
  return batch.verdict !== null;
}

/** Hours of a batch in which its core was measured. */
export function hoursMeasured({
  lengthDays,
  measuredFrac,
}: Pick<BatchMeasures, 'lengthDays' | 'measuredFrac'>): number {
  return lengthDays * 24 * measuredFrac;
}

/** Share of the measured hours in which the core was in its comfortable band [-]; null where nothing was measured. */
export function comfortShare({ measures }: Pick<ComparedBatch, 'measures'>): number | null {
  const measuredH = hoursMeasured(measures);
  return measures.comfortH === null || measuredH === 0 ? null : Math.min(1, measures.comfortH / measuredH);
}

/** Groups of one verdict each, the best first. @example byVerdict(batches)[0]?.verdict // => 'good' */
export function byVerdict(batches: readonly ComparedBatch[]): { verdict: Verdict; batches: Judged[] }[] {
  const inOrder = ranked(batches);
  return verdicts
    .map((verdict) => ({ verdict, batches: inOrder.filter((batch) => batch.verdict.verdict === verdict) }))
    .filter((group) => group.batches.length > 0);
}

const placeOf = ({ verdict }: Judged): number => verdicts.indexOf(verdict.verdict);
const wholeHours = ({ measures }: Judged) => (measures.alarmH === null ? null : Math.round(measures.alarmH));
const negated = (value: number | null) => (value === null ? null : -value);

function lessFirst(one: number | null, other: number | null): number {
  if (one === null || other === null) return one === other ? 0 : one === null ? 1 : -1;
  return one - other;
}
