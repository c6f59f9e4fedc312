/** Which batches are listed, and in which order, as the address has it. */
import { z } from 'zod';
import { compareNames } from '../../../../shared/compare-names.ts';
import type { BatchView } from '../../../../shared/contracts/lineage.ts';
import { holdsWords, typedWords } from '../../../../shared/find-words.ts';
import { verdicts } from '../../../../shared/verdict.ts';
import { addressWith, unusual } from '../../data/address-query.ts';

export const batchOrders = ['newest', 'best', 'heat', 'length', 'name'] as const;

const viewSchema = z.object({
  find: z.string().max(80).catch(''),
  order: z.enum(batchOrders).catch('newest'),
});
export type BatchesView = z.output<typeof viewSchema>;

const usualView: BatchesView = viewSchema.parse({});

export const readBatchesView = (query: Record<string, string>): BatchesView => viewSchema.parse(query);
export const batchesAddress = (view: BatchesView): string => addressWith('/batches', unusual(view, usualView));

/** A batch with what its line says of it. */
export interface ListedBatch {
  readonly batch: BatchView;
  /** Undefined while it is not known yet, null where nothing was measured [°C]. */
  readonly peakC: number | null | undefined;
  readonly lengthMs: number;
  /** All that is written in its line and can be found. */
  readonly words: string;
}

type Order = (one: ListedBatch, other: ListedBatch) => number;

const byName: Order = (one, other) => compareNames(one.batch.name, other.batch.name);
const newest: Order = (one, other) => other.batch.startedAt.localeCompare(one.batch.startedAt) || byName(one, other);

/** What is not known comes last. */
const mostFirst =
  (figure: (listed: ListedBatch) => number | null | undefined): Order =>
  (one, other) => {
    const [a, b] = [figure(one) ?? Number.NEGATIVE_INFINITY, figure(other) ?? Number.NEGATIVE_INFINITY];
    return a === b ? newest(one, other) : b - a;
  };

const orders: Record<BatchesView['order'], Order> = {
  newest,
  best: mostFirst(({ batch }) => (batch.verdict === null ? null : -verdicts.indexOf(batch.verdict.verdict))),
  heat: mostFirst(({ peakC }) => peakC),
  length: mostFirst(({ lengthMs }) => lengthMs),
  name: byName,
};

export function chosenBatches(listed: readonly ListedBatch[], view: BatchesView): ListedBatch[] {
  const words = typedWords(view.find);
  return listed.filter((one) => holdsWords(one.words, words)).sort(orders[view.order]);
}
