/** Several batches put together into a new one. */
import { useState } from 'preact/hooks';
import { useLocation } from 'preact-iso';
import type { BatchDetail } from '../../../../shared/contracts/lineage.ts';
import { fetchAll } from '../../data/live/connection.ts';
import { useReader } from '../../data/live/use-installation.ts';
import { useSay } from '../../data/live/use-say.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { useQuery } from '../../data/use-query.ts';
import { renderReadiness } from '../../ui/format/render-readiness.ts';
import { Refusal } from '../../ui/parts/forms.tsx';
import { SomeOf } from '../journal/thumb-choice.tsx';
import { BatchFields, batchBody, emptyBatch } from '../pile/batch-fields.tsx';
import { getBatches, getReadiness, mergeBatches } from './batch-api.ts';
import { emptyLayOn, LayOnFields, layOnBody } from './lay-on-fields.tsx';
import { useBatchWords } from './use-batch-words.ts';

export function MergeForm({ batch }: { readonly batch: BatchDetail }) {
  const { text } = useBatchWords();
  const mutation = useMutation();
  const reader = useReader(batch.site);
  const { route } = useLocation();
  const open = useQuery('open batches', () => getBatches({ state: 'open' })).value?.batches ?? [];
  const [others, setOthers] = useState<string[]>([]);
  const [on, setOn] = useState(emptyLayOn);
  const [draft, setDraft] = useState({ ...emptyBatch, stage: batch.stage });
  const choices = open
    .filter((one) => one.id !== batch.id)
    .map((one) => [one.id, text('page-batch.merge.batch', { batchName: one.name, pileName: one.pileName })] as const);
  const merge = () =>
    mutation.run(async () => {
      const { stage, recipe } = batchBody(draft, reader.timeZone);
      const made = await mergeBatches({
        from: [batch.id, ...others].map((batchId) => ({ batchId, all: true })),
        on: layOnBody(on, batch.site),
        stage,
        ...(recipe === undefined ? {} : { recipe }),
      });
      await fetchAll();
      route(`/batches/${made.id}`);
    });
  if (choices.length === 0) return <p class="quiet">{text('page-batch.merge.none')}</p>;
  return (
    <form
      class="form"
      aria-label={text('page-batch.merge')}
      onSubmit={(event) => {
        event.preventDefault();
        void merge();
      }}
    >
      <SomeOf
        legend={text('page-batch.merge.with')}
        choices={choices}
        values={others}
        onValues={setOthers}
        error={mutation.fieldError('/from')}
      />
      {open
        .filter(({ id }) => others.includes(id))
        .map((one) => (
          <SaidOfReadiness key={one.id} batch={one} />
        ))}
      <LayOnFields
        draft={on}
        onDraft={(change) => setOn({ ...on, ...change })}
        fromSite={batch.site}
        leaving={{ id: batch.pileId, name: batch.pileName }}
        wrong={(pointer) => mutation.fieldError(`/on${pointer}`)}
      />
      <BatchFields draft={draft} onDraft={(change) => setDraft({ ...draft, ...change })} mutation={mutation} />
      <Refusal error={mutation.error} />
      <button type="submit" class="primary" disabled={mutation.busy || others.length === 0}>
        {text('page-batch.merge.do')}
      </button>
    </form>
  );
}

/** What was seen and found of one that is to be mixed in: a bad one spoils all of it. */
function SaidOfReadiness({ batch }: { readonly batch: Pick<BatchDetail, 'id' | 'name' | 'site'> }) {
  const { value } = useQuery(batch.id, () => getReadiness(batch.id));
  const say = useSay(renderReadiness, batch.site);
  return (
    value && (
      <p class="sentence">
        <b>{batch.name}</b> {say(value.messages.says)}
      </p>
    )
  );
}
