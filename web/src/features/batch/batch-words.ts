/** Sentences about batches, flows and uses. */
import { type BatchView, type FlowView, useTargets } from '../../../../shared/contracts/lineage.ts';
import type { BatchWords } from './use-batch-words.ts';

type Words = Pick<BatchWords, 'text'>;

/** @example "Bran stage, laid 3 Apr 2031 on Cart shed. It is still working." */
export function batchSentence(batch: BatchView, { text }: Words): string {
  const { stage, pileName, endedAt, ending } = batch;
  const laid = { stage, pileName, laidDayMs: Date.parse(batch.startedAt) };
  return endedAt === null
    ? text('page-batch.says.open', laid)
    : text('page-batch.says.ended', { ...laid, ending: ending ?? 'other', endedDayMs: Date.parse(endedAt) });
}

/** The amount of a flow or lot; undefined where nobody wrote it down. */
export function amountWords(
  { massKg, volumeL }: Pick<FlowView, 'massKg' | 'volumeL'>,
  { text }: Words,
): string | undefined {
  if (massKg === null) return volumeL === null ? undefined : text('page-batch.amount.volume', { volumeL });
  return volumeL === null
    ? text('page-batch.amount.mass', { massKg })
    : text('page-batch.amount.both', { massKg, volumeL });
}

/** Facts one after the other, as the language has it; what nobody said is left out. */
export function factsLine(facts: readonly (string | null | undefined)[], { text }: Words): string {
  const [first = '', ...others] = facts.filter((fact): fact is string => Boolean(fact));
  return others.reduce((beforeText, nextText) => text('page-batch.fact.next', { beforeText, nextText }), first);
}

type Target = (typeof useTargets)[number];

/** As texts have it: the name of a choice there has no hyphen. */
export const targetKey = (target: Target) => (target === 'given-away' ? 'given' : target);

export const targetChoices = ({ text }: Words) =>
  useTargets.map((target) => [target, text('page-batch.use.target', { target: targetKey(target) })] as const);
