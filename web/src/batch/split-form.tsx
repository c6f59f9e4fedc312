/**
 * web/batch/split-form.tsx: parts taken off a batch, each laid somewhere by itself; what is left stays the batch it was.
 */
import { useState } from 'preact/hooks';
import type { BatchDetail } from '../../../shared/api/lineage.ts';
import { fetchAll } from '../live/connection.ts';
import { Choice, Refusal } from '../parts/forms.tsx';
import { useDeed } from '../parts/use-deed.ts';
import { MeasureField } from '../plan/measure-field.tsx';
import { readMeasure, typed, usePlanUnits } from '../plan/plan-units.ts';
import { splitBatch } from './batch-api.ts';
import { emptyLayOn, type LayOnDraft, LayOnFields, layOnBody } from './lay-on-fields.tsx';

interface PartDraft {
  readonly on: LayOnDraft;
  readonly mass: string;
}
const emptyPart: PartDraft = { on: emptyLayOn, mass: '' };

interface SplitFormProps {
  readonly batch: BatchDetail;
  readonly onDone: () => Promise<unknown>;
}

export function SplitForm({ batch, onDone }: SplitFormProps) {
  const deed = useDeed();
  const units = usePlanUnits();
  const [parts, setParts] = useState<readonly PartDraft[]>([emptyPart]);
  const [all, setAll] = useState<'rest' | 'none'>('rest');
  const change = (index: number, part: Partial<PartDraft>) =>
    setParts(parts.map((one, at) => (at === index ? { ...one, ...part } : one)));
  const masses = parts.map((part) => readMeasure('massKg', part.mass, units) ?? 0);
  const takenKg = masses.reduce((sum, one) => sum + one, 0);
  const rest = batch.amounts.restKg;
  const split = () =>
    deed.run(async () => {
      await splitBatch(batch.id, {
        parts: parts.map((part, index) => ({ on: layOnBody(part.on, batch.site), massKg: masses[index] ?? 0 })),
        all: all === 'none',
      });
      await fetchAll();
      await onDone();
    });
  return (
    <form
      class="form"
      aria-label="Part it"
      onSubmit={(event) => {
        event.preventDefault();
        void split();
      }}
    >
      {parts.map((part, index) => (
        <fieldset class="portion" key={`${index}-${parts.length}`}>
          <legend>Part {index + 1}</legend>
          <MeasureField
            label="Its mass"
            kind="massKg"
            value={part.mass}
            onValue={(mass) => change(index, { mass })}
            required
            error={deed.fieldError(`/parts/${index}/massKg`)}
          />
          <LayOnFields
            draft={part.on}
            onDraft={(on) => change(index, { on: { ...part.on, ...on } })}
            fromSite={batch.site}
            wrong={(pointer) => deed.fieldError(`/parts/${index}/on${pointer}`)}
          />
        </fieldset>
      ))}
      <p>
        <button type="button" onClick={() => setParts([...parts, emptyPart])}>
          One more part
        </button>
      </p>
      {rest !== null && (
        <p class="hint">
          {typed('massKg', takenKg, units, 4) || '0'} of {typed('massKg', rest, units, 4)} {units.mass} taken off.
        </p>
      )}
      <Choice
        legend="What stays where it lies"
        value={all}
        choices={[
          ['rest', 'The rest'],
          ['none', 'Nothing'],
        ]}
        onValue={setAll}
      />
      <Refusal error={deed.error} />
      <button type="submit" class="primary" disabled={deed.busy}>
        Part it
      </button>
    </form>
  );
}
