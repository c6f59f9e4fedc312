/** Keeping a part as a starter, abandoning a batch with a reason, naming it and saying how it came out. */
import { useState } from 'preact/hooks';
import type { BatchDetail } from '../../../../shared/contracts/lineage.ts';
import { fetchAll } from '../../data/live/connection.ts';
import { readMeasure, usePlanUnits } from '../../data/plan-units.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { Field, Refusal, TextField } from '../../ui/parts/forms.tsx';
import { MeasureField } from '../../ui/parts/measure-field.tsx';
import { abandonBatch, keepPart, sayOutcome } from './batch-api.ts';
import { useBatchWords } from './use-batch-words.ts';

interface SmallFormProps {
  readonly batch: BatchDetail;
  readonly onDone: () => Promise<unknown>;
}

export function KeepForm({ batch, onDone }: SmallFormProps) {
  const { text } = useBatchWords();
  const mutation = useMutation();
  const units = usePlanUnits();
  const [name, setName] = useState('');
  const [mass, setMass] = useState('');
  const [storage, setStorage] = useState('');
  const keep = () =>
    mutation.run(async () => {
      const massKg = readMeasure('massKg', mass, units);
      await keepPart(batch.id, {
        name,
        ...(storage.trim() ? { storage: storage.trim() } : {}),
        ...(massKg === undefined ? {} : { massKg }),
      });
      await onDone();
    });
  return (
    <form
      class="form"
      aria-label={text('page-batch.keep')}
      onSubmit={(event) => {
        event.preventDefault();
        void keep();
      }}
    >
      <TextField
        label={text('page-batch.keep.name')}
        value={name}
        onValue={setName}
        required
        hint={text('page-batch.keep.name.hint')}
        error={mutation.fieldError('/name')}
      />
      <div class="field-row">
        <MeasureField
          label={text('page-batch.mass')}
          kind="massKg"
          value={mass}
          onValue={setMass}
          error={mutation.fieldError('/massKg')}
        />
        <TextField
          label={text('page-batch.keep.storage')}
          value={storage}
          onValue={setStorage}
          error={mutation.fieldError('/storage')}
        />
      </div>
      <Refusal error={mutation.error} />
      <button type="submit" class="primary" disabled={mutation.busy}>
        {text('page-batch.keep.do')}
      </button>
    </form>
  );
}

export function AbandonForm({ batch, onDone }: SmallFormProps) {
  const { text } = useBatchWords();
  const mutation = useMutation();
  const [reason, setReason] = useState('');
  const abandon = () =>
    mutation.run(async () => {
      await abandonBatch(batch.id, { reason });
      await fetchAll();
      await onDone();
    });
  return (
    <form
      class="form"
      aria-label={text('page-batch.abandon')}
      onSubmit={(event) => {
        event.preventDefault();
        void abandon();
      }}
    >
      <Field
        label={text('page-batch.abandon.reason')}
        hint={text('page-batch.abandon.reason.hint')}
        error={mutation.fieldError('/reason')}
      >
        {(ids) => (
          <textarea
            {...ids}
            rows={3}
            required
            maxLength={2000}
            value={reason}
            onInput={(event) => setReason(event.currentTarget.value)}
          />
        )}
      </Field>
      <p class="caution">
        <span class="label">{text('page-batch.caution')}</span> {text('page-batch.abandon.caution')}
      </p>
      <Refusal error={mutation.error} />
      <button type="submit" class="primary" disabled={mutation.busy}>
        {text('page-batch.abandon.do')}
      </button>
    </form>
  );
}

export function OutcomeForm({ batch, onDone }: SmallFormProps) {
  const { text } = useBatchWords();
  const mutation = useMutation();
  const isNamed = batch.messages?.name === undefined;
  const [name, setName] = useState(isNamed ? batch.name : '');
  const [outcome, setOutcome] = useState(batch.outcome ?? '');
  const say = () =>
    mutation.run(async () => {
      await sayOutcome(batch.id, { outcome: outcome.trim() || null, name: name.trim() || null });
      await onDone();
    });
  return (
    <form
      class="form"
      aria-label={text('page-batch.naming')}
      onSubmit={(event) => {
        event.preventDefault();
        void say();
      }}
    >
      <TextField
        label={text('page-batch.naming.name')}
        hint={text('page-batch.continue.name.hint')}
        value={name}
        onValue={setName}
        error={mutation.fieldError('/name')}
      />
      <Field label={text('page-batch.naming.outcome')} error={mutation.fieldError('/outcome')}>
        {(ids) => (
          <textarea
            {...ids}
            rows={4}
            maxLength={2000}
            value={outcome}
            onInput={(event) => setOutcome(event.currentTarget.value)}
          />
        )}
      </Field>
      <Refusal error={mutation.error} />
      <button type="submit" class="primary" disabled={mutation.busy}>
        {text('page-batch.naming.do')}
      </button>
    </form>
  );
}
