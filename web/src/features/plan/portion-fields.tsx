/** One material of a heap: what, how much, and what is known of it. */

import { ingredientFacts } from '../../../../core/plan/plan-facts.ts';
import { PickField, TextField } from '../../ui/parts/forms.tsx';
import { MeasureField } from '../../ui/parts/measure-field.tsx';
import type { PortionDraft } from './plan-draft.ts';
import { useSayPlan } from './plan-say.ts';
import { usePlanWords } from './use-plan-words.ts';
import { ingredientNames, unlessKnown } from './water-plan.tsx';
import './plan.css';

interface PortionFieldsProps {
  readonly index: number;
  readonly by: 'mass' | 'volume';
  readonly portion: PortionDraft;
  readonly wrong: (pointer: string) => string | undefined;
  readonly onPortion: (part: Partial<PortionDraft>) => void;
  readonly onRemove: (() => void) | undefined;
}

export function PortionFields({ index, by, portion, wrong, onPortion, onRemove }: PortionFieldsProps) {
  const { text } = usePlanWords();
  const say = useSayPlan();
  const at = (field: string) => wrong(`/materials/${index}/${field}`);
  return (
    <fieldset class="portion">
      <legend>{text('page-plan.portion', { portionNumber: index + 1 })}</legend>
      <div class="field-row">
        <PickField
          label={text('page-plan.portion.what')}
          value={portion.material}
          choices={ingredientNames(say)}
          onValue={(material) => onPortion({ material })}
        />
        <MeasureField
          label={text('page-plan.portion.amount')}
          kind={by === 'mass' ? 'massKg' : 'volumeL'}
          value={portion.amount}
          onValue={(amount) => onPortion({ amount })}
          error={at(by === 'mass' ? 'massKg' : 'volumeL')}
        />
      </div>
      <KnownOfIt portion={portion} onPortion={onPortion} wrong={at} />
      {onRemove && (
        <button type="button" class="plain" onClick={onRemove}>
          {text('page-plan.portion.leave-out', { portionNumber: index + 1 })}
        </button>
      )}
    </fieldset>
  );
}

/** What differs from the facts of its kind; all there is of a material of another kind. */
function KnownOfIt({ portion, onPortion, wrong }: Pick<PortionFieldsProps, 'portion' | 'onPortion' | 'wrong'>) {
  const words = usePlanWords();
  const { text } = words;
  const facts = ingredientFacts(portion.material);
  const needsFacts = portion.material === 'other';
  return (
    <details class="more" open={needsFacts}>
      <summary>{text('page-plan.portion.known')}</summary>
      {needsFacts && (
        <TextField
          label={text('page-plan.portion.name')}
          value={portion.name}
          onValue={(name) => onPortion({ name })}
          error={wrong('name')}
        />
      )}
      <div class="field-row">
        <MeasureField
          label={text('page-plan.portion.moisture')}
          unitNote={text('page-plan.wet-basis')}
          kind="share"
          value={portion.moisture}
          onValue={(moisture) => onPortion({ moisture })}
          hint={unlessKnown(facts.stored?.moistureFrac.value, words)}
          error={wrong('moisture')}
        />
        <MeasureField
          label={text('page-plan.portion.weight')}
          kind="densityKgM3"
          value={portion.weight}
          onValue={(weight) => onPortion({ weight })}
          hint={text('page-plan.portion.weight.hint')}
          error={wrong('bulkDensityKgM3')}
        />
      </div>
      <div class="field-row">
        <MeasureField
          label={text('page-plan.portion.carbon')}
          unitNote={text('page-plan.portion.of-dry')}
          kind="share"
          value={portion.carbon}
          onValue={(carbon) => onPortion({ carbon })}
          error={wrong('carbonFrac')}
        />
        <MeasureField
          label={text('page-plan.portion.nitrogen')}
          unitNote={text('page-plan.portion.of-dry')}
          kind="share"
          value={portion.nitrogen}
          onValue={(nitrogen) => onPortion({ nitrogen })}
          error={wrong('nitrogenFrac')}
        />
      </div>
    </details>
  );
}
