/** Lots that go into a batch, each with its amount. */
import type { Lot } from '../../../../shared/contracts/lots.ts';
import type { PlanUnits } from '../../../../shared/contracts/plan.ts';
import { readMeasure } from '../../data/plan-units.ts';
import { PickField } from '../../ui/parts/forms.tsx';
import { MeasureField } from '../../ui/parts/measure-field.tsx';
import { useBatchWords } from './use-batch-words.ts';

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
  const { text, rich } = useBatchWords();
  const open = lots.filter((lot) => !lot.usedUp);
  const change = (index: number, part: Partial<InputDraft>) =>
    onInputs(inputs.map((one, at) => (at === index ? { ...one, ...part } : one)));
  if (open.length === 0) {
    return (
      <p class="hint">
        {rich(lots.length === 0 ? 'page-batch.input.none' : 'page-batch.input.used-up', {
          link: (inner) => <a href="/lots">{inner}</a>,
        })}
      </p>
    );
  }
  return (
    <>
      {inputs.map((input, index) => (
        <div class="field-row" key={`${index}-${inputs.length}`}>
          <PickField
            label={text('page-batch.input.lot', { lotCount: index + 1 })}
            value={input.lotId}
            choices={open.map((lot) => [lot.id, lot.name] as const)}
            onValue={(lotId) => change(index, { lotId })}
            error={wrong(`/${index}/lotId`)}
          />
          <MeasureField
            label={text('page-batch.input.mass')}
            kind="massKg"
            value={input.mass}
            onValue={(mass) => change(index, { mass })}
            error={wrong(`/${index}/massKg`)}
          />
          <MeasureField
            label={text('page-batch.input.volume')}
            kind="volumeL"
            value={input.volume}
            onValue={(volume) => change(index, { volume })}
            error={wrong(`/${index}/volumeL`)}
          />
        </div>
      ))}
      <p>
        <button type="button" onClick={() => onInputs([...inputs, { lotId: open[0]?.id ?? '', mass: '', volume: '' }])}>
          {text('page-batch.input.more', { isFirst: inputs.length === 0 })}
        </button>
      </p>
    </>
  );
}
