/** Every batch, those that work first, and the way to lots and the family tree. */
import { type BatchView, endingNames } from '../../../../shared/contracts/lineage.ts';
import { reasonOf } from '../../data/client.ts';
import { useReader, useServerNow } from '../../data/live/use-installation.ts';
import { useQuery } from '../../data/use-query.ts';
import { batchDay } from '../../ui/format/age.ts';
import { fullDay } from '../../ui/format/full-date.ts';
import { capital, counted, stageNames } from '../../ui/format/words.ts';
import { May } from '../../ui/parts/only-for.tsx';
import { usePage } from '../../ui/parts/use-page.ts';
import { VerdictLine } from '../verdict/verdict-line.tsx';
import { getBatches } from './batch-api.ts';
import { batchesSentence } from './batches-sentence.ts';
import './batch.css';

export function BatchesPage() {
  const { value, error } = useQuery('batches', () => getBatches());
  const heading = usePage('Batches');
  const batches = value?.batches ?? [];
  return (
    <div class="page">
      <div class="opening">
        <h1 ref={heading} tabIndex={-1}>
          {value
            ? batchesSentence(batches)
            : error === undefined
              ? 'Looking at the batches…'
              : 'The batches cannot be shown now.'}
        </h1>
        {error !== undefined && <p class="lead">{reasonOf(error)}</p>}
        <ul class="batch-links">
          <li>
            <a href="/lots">Starters and materials</a>
          </li>
          <li>
            <a href="/lineage">The farm’s family tree</a>
          </li>
          <li>
            <a href="/records">Records</a>
          </li>
          <May to="keeper">
            <li>
              <a href="/piles/new">Lay a pile</a>
            </li>
          </May>
        </ul>
      </div>
      <BatchList title="Working" batches={batches.filter((batch) => batch.endedAt === null)} />
      <BatchList title="Ended" batches={batches.filter((batch) => batch.endedAt !== null)} />
    </div>
  );
}

function BatchList({ title, batches }: { readonly title: string; readonly batches: readonly BatchView[] }) {
  if (batches.length === 0) return null;
  const id = `batches-${title.toLowerCase()}`;
  return (
    <section class="site" aria-labelledby={id}>
      <div class="site-name">
        <h2 id={id}>{title}</h2>
        <p>{counted(batches.length, 'batch', 'batches')}</p>
      </div>
      <ol class="batch-list">
        {batches.map((batch) => (
          <BatchLine key={batch.id} batch={batch} />
        ))}
      </ol>
    </section>
  );
}

function BatchLine({ batch }: { readonly batch: BatchView }) {
  const reader = useReader(batch.site);
  const nowMs = useServerNow();
  const startedMs = Date.parse(batch.startedAt);
  const stand =
    batch.endedAt === null
      ? `day ${batchDay(startedMs, nowMs)}`
      : `${batch.ending ? endingNames[batch.ending] : 'ended'} ${fullDay(Date.parse(batch.endedAt), reader)}`;
  return (
    <li>
      <h3>
        <a href={`/batches/${batch.id}`}>{batch.name}</a>
      </h3>
      <p class="quiet">
        {capital(stageNames[batch.stage])} on {batch.pileName}, laid {fullDay(startedMs, reader)}, {stand}.
      </p>
      <VerdictLine batch={batch} />
      {batch.outcome && <p class="diary-note">{batch.outcome}</p>}
      {batch.reason && <p class="diary-note">{batch.reason}</p>}
    </li>
  );
}
