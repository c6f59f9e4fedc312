/** A batch moved to the next stage, mixed with other things, on the same ground or another. */
import { useState } from 'preact/hooks';
import { useLocation } from 'preact-iso';
import type { BatchDetail } from '../../../../shared/contracts/lineage.ts';
import { toInstant } from '../../../../shared/contracts/time.ts';
import { fetchAll } from '../../data/live/connection.ts';
import { useReader } from '../../data/live/use-installation.ts';
import { usePlanUnits } from '../../data/plan-units.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { useQuery } from '../../data/use-query.ts';
import { Refusal, TextField } from '../../ui/parts/forms.tsx';
import { BatchFields, batchBody, emptyBatch } from '../pile/batch-fields.tsx';
import { continueBatch, getLots } from './batch-api.ts';
import { type InputDraft, InputFields, inputBody } from './input-fields.tsx';
import { emptyLayOn, LayOnFields, layOnBody } from './lay-on-fields.tsx';
import { PartOf, partBody, wholeBatch } from './part-of.tsx';
import { useBatchWords } from './use-batch-words.ts';

/** What goes on as the next stage, as it stands in the form, and moving it there. */
function useContinuing(batch: BatchDetail) {
  const mutation = useMutation();
  const units = usePlanUnits();
  const reader = useReader(batch.site);
  const { route } = useLocation();
  const [on, setOn] = useState(emptyLayOn);
  const [part, setPart] = useState(wholeBatch);
  const [name, setName] = useState('');
  const [inputs, setInputs] = useState<InputDraft[]>([]);
  const [draft, setDraft] = useState({
    ...emptyBatch,
    stage: 'soil' as const,
  } as typeof emptyBatch);
  const take = () =>
    mutation.run(async () => {
      const { stage, startedAt, recipe } = batchBody(draft, reader.timeZone);
      const made = await continueBatch(batch.id, {
        on: layOnBody(on, batch.site),
        stage,
        ...(recipe === undefined ? {} : { recipe }),
        ...(startedAt === undefined ? {} : { at: toInstantText(startedAt) }),
        ...(name.trim() ? { name: name.trim() } : {}),
        inputs: inputs.map((input) => inputBody(input, units)),
        ...partBody(part, units),
      });
      await fetchAll();
      route(`/batches/${made.id}`);
    });
  return { on, setOn, part, setPart, name, setName, inputs, setInputs, draft, setDraft, take, mutation };
}

export function ContinueForm({ batch }: { readonly batch: BatchDetail }) {
  const { text } = useBatchWords();
  const lots = useQuery('lots', getLots).value?.lots ?? [];
  const { on, part, draft, mutation, ...taking } = useContinuing(batch);
  return (
    <form
      class="form"
      aria-label={text('page-batch.continue')}
      onSubmit={(event) => {
        event.preventDefault();
        void taking.take();
      }}
    >
      <PartOf batch={batch} draft={part} onDraft={taking.setPart} wrong={mutation.fieldError} />
      <LayOnFields
        draft={on}
        onDraft={(change) => taking.setOn({ ...on, ...change })}
        fromSite={batch.site}
        leaving={part.how === 'all' && batch.endedAt === null ? { id: batch.pileId, name: batch.pileName } : undefined}
        wrong={(pointer) => mutation.fieldError(`/on${pointer}`)}
      />
      <BatchFields draft={draft} onDraft={(change) => taking.setDraft({ ...draft, ...change })} mutation={mutation} />
      <InputFields
        lots={lots}
        inputs={taking.inputs}
        onInputs={taking.setInputs}
        wrong={(pointer) => mutation.fieldError(`/inputs${pointer}`)}
      />
      <TextField
        label={text('page-batch.continue.name')}
        hint={text('page-batch.continue.name.hint')}
        value={taking.name}
        onValue={taking.setName}
        error={mutation.fieldError('/name')}
      />
      <Refusal error={mutation.error} />
      <button type="submit" class="primary" disabled={mutation.busy}>
        {text('page-batch.continue')}
      </button>
    </form>
  );
}

function toInstantText(at: string | number): string {
  return typeof at === 'number' ? toInstant(at) : at;
}
