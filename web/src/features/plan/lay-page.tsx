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
import './plan.css';

const onNew = '';

export function LayPage() {
  const heading = usePage('Lay what was planned');
  const { query } = useRoute();
  const free = useInstallation((installation) => installation.piles)?.filter((pile) => pile.batch === null) ?? [];
  const [where, setWhere] = useState<string>(onNew);
  const [draft] = useState<BatchDraft>(() => ({ ...emptyBatch, ...draftOfQuery(query) }));
  return (
    <div class="page narrow">
      <h1 ref={heading} tabIndex={-1}>
        Lay what was planned
      </h1>
      <p class="lead">
        The plan’s figures stand in the fields; what you really weighed counts more. Change what differs.
      </p>
      {free.length > 0 && (
        <div class="form lay-where">
          <PickField
            label="Where"
            value={where}
            choices={[[onNew, 'A new pile'], ...free.map((pile) => [pile.id, `${pile.name}, which is free`] as const)]}
            onValue={setWhere}
          />
        </div>
      )}
      {where === onNew ? <PileForm planned={draft} /> : <NextHere key={where} pileId={where} planned={draft} />}
    </div>
  );
}

function NextHere({ pileId, planned }: { readonly pileId: string; readonly planned: BatchDraft }) {
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
        Lay the batch
      </button>
    </form>
  );
}
