/** Lays a pile with the figures of a plan, on ground that is free or new. */
import { useState } from 'preact/hooks';
import { useLocation, useRoute } from 'preact-iso';
import { fetchAll } from '../../data/live/connection.ts';
import { useInstallation, useReader } from '../../data/live/use-installation.ts';
import { startBatch } from '../../data/routes.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { PickField, Refusal } from '../../ui/parts/forms.tsx';
import { usePage } from '../../ui/parts/use-page.ts';
import { type BatchDraft, BatchFields, batchBody, emptyBatch } from '../pile/batch-fields.tsx';
import { PileForm } from '../pile/pile-form.tsx';
import { draftOfQuery } from './lay-query.ts';
import { usePlanWords } from './use-plan-words.ts';
import './plan.css';

const onNew = '';

export function LayPage() {
  const { text } = usePlanWords();
  const heading = usePage(text('page-plan.lay'));
  const { query } = useRoute();
  const free = useInstallation((installation) => installation.piles)?.filter((pile) => pile.batch === null) ?? [];
  const [where, setWhere] = useState<string>(onNew);
  const [draft] = useState<BatchDraft>(() => ({ ...emptyBatch, ...draftOfQuery(query) }));
  return (
    <div class="page narrow">
      <h1 ref={heading} tabIndex={-1}>
        {text('page-plan.lay')}
      </h1>
      <p class="lead">{text('page-plan.lay.lead')}</p>
      {free.length > 0 && (
        <div class="form lay-where">
          <PickField
            label={text('page-plan.lay.where')}
            value={where}
            choices={[
              [onNew, text('page-plan.lay.new-pile')],
              ...free.map(({ id, name }) => [id, text('page-plan.lay.free', { pileName: name })] as const),
            ]}
            onValue={setWhere}
          />
        </div>
      )}
      {where === onNew ? <PileForm planned={draft} /> : <NextHere key={where} pileId={where} planned={draft} />}
    </div>
  );
}

function NextHere({ pileId, planned }: { readonly pileId: string; readonly planned: BatchDraft }) {
  const { text } = usePlanWords();
  const site = useInstallation((installation) => installation.piles?.find((pile) => pile.id === pileId)?.site);
  const reader = useReader(site);
  const mutation = useMutation();
  const { route } = useLocation();
  const [batch, setBatch] = useState(planned);
  const lay = () =>
    mutation.run(async () => {
      await startBatch(pileId, batchBody(batch, reader.timeZone));
      await fetchAll();
      route(`/piles/${pileId}`);
    });
  return (
    <form
      class="form"
      onSubmit={(event) => {
        event.preventDefault();
        void lay();
      }}
    >
      <BatchFields draft={batch} onDraft={(part) => setBatch({ ...batch, ...part })} mutation={mutation} />
      <Refusal error={mutation.error} />
      <button type="submit" class="primary" disabled={mutation.busy}>
        {text('page-plan.lay.batch')}
      </button>
    </form>
  );
}
