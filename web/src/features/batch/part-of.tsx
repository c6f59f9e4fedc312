/** How much of a batch is taken: all that is left, or a part that is weighed. */
import type { BatchDetail } from '../../../../shared/contracts/lineage.ts';
import type { PlanUnits } from '../../../../shared/contracts/plan.ts';
import { readMeasure, typed, usePlanUnits } from '../../data/plan-units.ts';
import { Choice } from '../../ui/parts/forms.tsx';
import { MeasureField } from '../../ui/parts/measure-field.tsx';

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
  const units = usePlanUnits();
  const rest = batch.amounts.restKg;
  return (
    <>
      <Choice
        legend="How much of it"
        value={draft.how}
        choices={[
          ['all', 'All that is left'],
          ['part', 'A part'],
        ]}
        onValue={(how) => onDraft({ ...draft, how })}
      />
      <MeasureField
        label={draft.how === 'all' ? 'Its mass now' : 'Mass of the part'}
        kind="massKg"
        value={draft.mass}
        onValue={(mass) => onDraft({ ...draft, mass })}
        hint={
          rest === null
            ? undefined
            : `By what was written down, ${typed('massKg', rest, units, 3)} ${units.mass} are left.`
        }
        error={wrong('/massKg')}
      />
    </>
  );
}
