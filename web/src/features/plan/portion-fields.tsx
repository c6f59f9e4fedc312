/** One material of a heap: what, how much, and what is known of it. */

import { ingredientFacts } from '../../../../core/plan/plan-facts.ts';
import { usePlanUnits } from '../../data/plan-units.ts';
import { PickField, TextField } from '../../ui/parts/forms.tsx';
import { MeasureField } from '../../ui/parts/measure-field.tsx';
import type { PortionDraft } from './plan-asks.ts';
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
  const at = (field: string) => wrong(`/materials/${index}/${field}`);
  return (
    <fieldset class="portion">
      <legend>Material {index + 1}</legend>
      <div class="field-row">
        <PickField
          label="What"
          value={portion.material}
          choices={ingredientNames}
          onValue={(material) => onPortion({ material })}
        />
        <MeasureField
          label="How much"
          kind={by === 'mass' ? 'massKg' : 'volumeL'}
          value={portion.amount}
          onValue={(amount) => onPortion({ amount })}
          error={at(by === 'mass' ? 'massKg' : 'volumeL')}
        />
      </div>
      <KnownOfIt portion={portion} onPortion={onPortion} wrong={at} />
      {onRemove && (
        <button type="button" class="plain" onClick={onRemove}>
          Leave material {index + 1} out
        </button>
      )}
    </fieldset>
  );
}

/** What differs from the facts of its kind; all there is of a material of another kind. */
function KnownOfIt({ portion, onPortion, wrong }: Pick<PortionFieldsProps, 'portion' | 'onPortion' | 'wrong'>) {
  const units = usePlanUnits();
  const facts = ingredientFacts(portion.material);
  const needsFacts = portion.material === 'other';
  return (
    <details class="more" open={needsFacts}>
      <summary>What you know of it</summary>
      {needsFacts && (
        <TextField
          label="Its name"
          value={portion.name}
          onValue={(name) => onPortion({ name })}
          error={wrong('name')}
        />
      )}
      <div class="field-row">
        <MeasureField
          label="Moisture"
          unitNote="wet basis"
          kind="share"
          value={portion.moisture}
          onValue={(moisture) => onPortion({ moisture })}
          hint={unlessKnown(facts.stored?.moistureFrac.value, units)}
          error={wrong('moisture')}
        />
        <MeasureField
          label="Weight, loose"
          kind="densityKgM3"
          value={portion.weight}
          onValue={(weight) => onPortion({ weight })}
          hint="A bucket of it, weighed, divided by its volume."
          error={wrong('bulkDensityKgM3')}
        />
      </div>
      <div class="field-row">
        <MeasureField
          label="Carbon"
          unitNote="of the dry mass"
          kind="share"
          value={portion.carbon}
          onValue={(carbon) => onPortion({ carbon })}
          error={wrong('carbonFrac')}
        />
        <MeasureField
          label="Nitrogen"
          unitNote="of the dry mass"
          kind="share"
          value={portion.nitrogen}
          onValue={(nitrogen) => onPortion({ nitrogen })}
          error={wrong('nitrogenFrac')}
        />
      </div>
    </details>
  );
}
