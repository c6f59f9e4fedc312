/** Lots that go into a batch, each with its amount. */
import type { Lot } from '../../../../shared/contracts/lots.ts';
import type { PlanUnits } from '../../../../shared/contracts/plan.ts';
import { readMeasure } from '../../data/plan-units.ts';
import { PickField } from '../../ui/parts/forms.tsx';
import { MeasureField } from '../../ui/parts/measure-field.tsx';

export interface InputDraft {
  readonly lotId: string;
  readonly mass: string;
  readonly volume: string;
}

export function inputBody({ lotId, mass, volume }: InputDraft, units: PlanUnits) {
  const massKg = readMeasure('massKg', mass, units);
  const volumeL = readMeasure('volumeL', volume, units);
  return { lotId, ...(massKg === undefined ? {} : { massKg }), ...(volumeL === undefined ? {} : { volumeL }) };
}

interface InputFieldsProps {
  readonly lots: readonly Lot[];
  readonly inputs: readonly InputDraft[];
  readonly onInputs: (inputs: InputDraft[]) => void;
  readonly wrong: (pointer: string) => string | undefined;
}

export function InputFields({ lots, inputs, onInputs, wrong }: InputFieldsProps) {
  const open = lots.filter((lot) => !lot.usedUp);
  const change = (index: number, part: Partial<InputDraft>) =>
    onInputs(inputs.map((one, at) => (at === index ? { ...one, ...part } : one)));
  if (open.length === 0) {
    return (
      <p class="hint">
        {lots.length === 0
          ? 'No starter and no material is written down yet.'
          : 'Every starter and material that is written down is used up.'}{' '}
        <a href="/lots">Write down {lots.length === 0 ? 'one' : 'another'}</a>
      </p>
    );
  }
  return (
    <>
      {inputs.map((input, index) => (
        <div class="field-row" key={`${index}-${inputs.length}`}>
          <PickField
            label={`Mixed in (${index + 1})`}
            value={input.lotId}
            choices={open.map((lot) => [lot.id, lot.name] as const)}
            onValue={(lotId) => change(index, { lotId })}
            error={wrong(`/${index}/lotId`)}
          />
          <MeasureField
            label="Mass of it"
            kind="massKg"
            value={input.mass}
            onValue={(mass) => change(index, { mass })}
            error={wrong(`/${index}/massKg`)}
          />
          <MeasureField
            label="Or its volume"
            kind="volumeL"
            value={input.volume}
            onValue={(volume) => change(index, { volume })}
            error={wrong(`/${index}/volumeL`)}
          />
        </div>
      ))}
      <p>
        <button type="button" onClick={() => onInputs([...inputs, { lotId: open[0]?.id ?? '', mass: '', volume: '' }])}>
          {inputs.length === 0 ? 'Something is mixed in' : 'One more'}
        </button>
      </p>
    </>
  );
}
