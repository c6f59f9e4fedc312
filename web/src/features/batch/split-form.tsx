/** Parts taken off a batch, each laid somewhere by itself; what is left stays the batch it was. */
import { useState } from 'preact/hooks';
import { type Cover, covers } from '../../../../shared/contracts/domain/batch.ts';
import type { BatchDetail } from '../../../../shared/contracts/lineage.ts';
import type { PlanUnits } from '../../../../shared/contracts/plan.ts';
import { fetchAll } from '../../data/live/connection.ts';
import { readMeasure, usePlanUnits } from '../../data/plan-units.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { Choice, PickField, Refusal } from '../../ui/parts/forms.tsx';
import { MeasureField } from '../../ui/parts/measure-field.tsx';
import { useLaidNames } from '../../ui/parts/use-laid-names.ts';
import { splitBatch } from './batch-api.ts';
import { emptyLayOn, type LayOnDraft, LayOnFields, layOnBody } from './lay-on-fields.tsx';
import { useBatchWords } from './use-batch-words.ts';
import './batch.css';

interface PartDraft {
  readonly on: LayOnDraft;
  readonly mass: string;
  readonly depth: string;
  readonly cover: Cover | '';
}
const emptyPart: PartDraft = { on: emptyLayOn, mass: '', depth: '', cover: '' };

/** How the part lies is its own; what nobody says is not taken from the whole. */
function partRecipe({ depth, cover }: PartDraft, units: PlanUnits) {
  const depthM = readMeasure('depthM', depth, units);
  return { ...(depthM === undefined ? {} : { depthM }), ...(cover === '' ? {} : { cover }) };
}

interface SplitFormProps {
  readonly batch: BatchDetail;
  readonly onDone: () => Promise<unknown>;
}

/** The parts as they stand in the form, and taking them off. */
function useSplit({ batch, onDone }: SplitFormProps) {
  const mutation = useMutation();
  const units = usePlanUnits();
  const [parts, setParts] = useState<readonly PartDraft[]>([emptyPart]);
  const [all, setAll] = useState<'rest' | 'none'>('rest');
  const change = (index: number, part: Partial<PartDraft>) =>
    setParts(parts.map((one, at) => (at === index ? { ...one, ...part } : one)));
  const masses = parts.map((part) => readMeasure('massKg', part.mass, units));
  const takenKg = masses.reduce<number>((sum, one) => sum + (one ?? 0), 0);
  const split = () =>
    mutation.run(async () => {
      await splitBatch(batch.id, {
        parts: parts.map((part, index) => ({
          on: layOnBody(part.on, batch.site),
          massKg: masses[index] ?? Number.NaN,
          recipe: partRecipe(part, units),
        })),
        all: all === 'none',
      });
      await fetchAll();
      await onDone();
    });
  return {
    parts,
    change,
    addPart: () => setParts([...parts, emptyPart]),
    all,
    setAll,
    takenKg,
    split,
    mutation,
  };
}

export function SplitForm(props: SplitFormProps) {
  const { text } = useBatchWords();
  const { batch } = props;
  const { parts, change, all, setAll, takenKg, mutation, ...splitting } = useSplit(props);
  const { restKg } = batch.amounts;
  return (
    <form
      class="form"
      aria-label={text('page-batch.split')}
      onSubmit={(event) => {
        event.preventDefault();
        void splitting.split();
      }}
    >
      {parts.map((part, index) => (
        <PartFields
          key={`${index}-${parts.length}`}
          index={index}
          part={part}
          fromSite={batch.site}
          onPart={(changed) => change(index, changed)}
          wrong={(pointer) => mutation.fieldError(`/parts/${index}${pointer}`)}
        />
      ))}
      <p>
        <button type="button" onClick={splitting.addPart}>
          {text('page-batch.split.more')}
        </button>
      </p>
      {restKg !== null && Number.isFinite(takenKg) && (
        <p class="hint">
          {text('page-batch.split.taken', {
            takenKg: { value: takenKg, figures: 4 },
            restKg: { value: restKg, figures: 4 },
          })}
        </p>
      )}
      <Choice
        legend={text('page-batch.split.stays')}
        value={all}
        choices={(['rest', 'none'] as const).map(
          (stays) => [stays, text('page-batch.split.stays.of', { stays })] as const,
        )}
        onValue={setAll}
      />
      <Refusal error={mutation.error} />
      <button type="submit" class="primary" disabled={mutation.busy}>
        {text('page-batch.split')}
      </button>
    </form>
  );
}

interface PartFieldsProps {
  readonly index: number;
  readonly part: PartDraft;
  readonly fromSite: string;
  readonly onPart: (changed: Partial<PartDraft>) => void;
  readonly wrong: (pointer: string) => string | undefined;
}

function PartFields({ index, part, fromSite, onPart, wrong }: PartFieldsProps) {
  const { text } = useBatchWords();
  const names = useLaidNames();
  return (
    <fieldset class="split-part">
      <legend>{text('page-batch.split.part', { partCount: index + 1 })}</legend>
      <MeasureField
        label={text('page-batch.mass')}
        kind="massKg"
        value={part.mass}
        onValue={(mass) => onPart({ mass })}
        required
        error={wrong('/massKg')}
      />
      <LayOnFields
        draft={part.on}
        onDraft={(on) => onPart({ on: { ...part.on, ...on } })}
        fromSite={fromSite}
        wrong={(pointer) => wrong(`/on${pointer}`)}
      />
      <div class="field-row">
        <MeasureField
          label={text('page-batch.split.depth')}
          kind="depthM"
          value={part.depth}
          onValue={(depth) => onPart({ depth })}
          error={wrong('/recipe/depthM')}
        />
        <PickField
          label={text('page-batch.split.cover')}
          value={part.cover}
          choices={[
            ['', text('page-batch.split.not-given')],
            ...covers.map((cover) => [cover, names.cover(cover)] as const),
          ]}
          onValue={(cover) => onPart({ cover })}
        />
      </div>
    </fieldset>
  );
}
