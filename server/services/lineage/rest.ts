/** What went in and out of a batch, and what is left of it. */
import { batchAmounts } from '../../../core/lineage/amounts.ts';
import type { BatchDetail } from '../../../shared/contracts/lineage.ts';
import { plainEnglish } from '../../../shared/messages/render.ts';
import type { BatchRecord } from '../../../shared/store/journal.ts';
import { type Family, isEmptied } from './family.ts';

export function amountsOf(family: Family, batch: BatchRecord): BatchDetail['amounts'] {
  const isHere = (end: { kind: string; id: string }) => end.kind === 'batch' && end.id === batch.id;
  const { remark, ...amounts } = batchAmounts(
    batch.recipe.massKg ?? null,
    family.flows.filter(({ to }) => isHere(to)),
    family.flows.filter(({ from }) => isHere(from)),
    isEmptied(family, batch.id) || family.stories.get(batch.id)?.ending === 'abandoned',
  );
  return { ...amounts, remark: remark && plainEnglish(remark), messages: { remark } };
}

/** Null while an amount on the way was not written down, and where nothing is left. */
export function restKg(family: Family, batch: BatchRecord): number | null {
  const rest = amountsOf(family, batch).restKg;
  return rest !== null && rest > 0 ? rest : null;
}
