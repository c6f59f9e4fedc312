/** How much of a batch is taken: all that is left, or a part that is weighed. */
import type { BatchDetail } from '../../../../shared/contracts/lineage.ts';
import type { PlanUnits } from '../../../../shared/contracts/plan.ts';
import { readMeasure } from '../../data/plan-units.ts';
import { Choice } from '../../ui/parts/forms.tsx';
import { MeasureField } from '../../ui/parts/measure-field.tsx';
import { useBatchWords } from './use-batch-words.ts';

export interface PartDraft {
  readonly how: 'all' | 'part';
  readonly mass: string;
}
export const wholeBatch: PartDraft = { how: 'all', mass: '' };

export function partBody({ how, mass }: PartDraft, units: PlanUnits) {
  const massKg = readMeasure('massKg', mass, units);
  return { all: how === 'all', ...(massKg === undefined ? {} : { massKg }) };
}

interface PartOfProps {
  readonly batch: BatchDetail;
  readonly draft: PartDraft;
  readonly onDraft: (draft: PartDraft) => void;
  readonly wrong: (pointer: string) => string | undefined;
}

export function PartOf({ batch, draft, onDraft, wrong }: PartOfProps) {
  const { text } = useBatchWords();
  const { restKg } = batch.amounts;
  return (
    <>
      <Choice
        legend={text('page-batch.how-much')}
        value={draft.how}
        choices={[
          ['all', text('page-batch.how-much.all')],
          ['part', text('page-batch.how-much.part')],
        ]}
        onValue={(how) => onDraft({ ...draft, how })}
      />
      <MeasureField
        label={text('page-batch.how-much.mass', { how: draft.how })}
        kind="massKg"
        value={draft.mass}
        onValue={(mass) => onDraft({ ...draft, mass })}
        hint={restKg === null ? undefined : text('page-batch.how-much.left', { restKg })}
        error={wrong('/massKg')}
      />
    </>
  );
}
