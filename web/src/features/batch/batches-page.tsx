/** Every batch, those that work first, and the way to lots and the family tree. */
import type { BatchView } from '../../../../shared/contracts/lineage.ts';
import { reasonOf } from '../../data/client.ts';
import { useServerNow } from '../../data/live/use-installation.ts';
import { useQuery } from '../../data/use-query.ts';
import { batchDay } from '../../ui/format/age.ts';
import { May } from '../../ui/parts/only-for.tsx';
import { usePage } from '../../ui/parts/use-page.ts';
import { VerdictLine } from '../verdict/verdict-line.tsx';
import { getBatches } from './batch-api.ts';
import { useBatchWords } from './use-batch-words.ts';
import './batch.css';

export function BatchesPage() {
  const { text } = useBatchWords();
  const { value, error } = useQuery('batches', () => getBatches());
  const heading = usePage(text('page-batch.batches'));
  const batches = value?.batches ?? [];
  return (
    <div class="page">
      <div class="opening">
        <h1 ref={heading} tabIndex={-1}>
          {value ? (
            <HowMany batches={batches} />
          ) : error === undefined ? (
            text('page-batch.looking')
          ) : (
            text('page-batch.none-shown')
          )}
        </h1>
        {error !== undefined && <p class="lead">{reasonOf(error)}</p>}
        <ul class="batch-links">
          <li>
            <a href="/lots">{text('page-batch.lots')}</a>
          </li>
          <li>
            <a href="/lineage">{text('page-batch.family')}</a>
          </li>
          <li>
            <a href="/records">{text('page-batch.records')}</a>
          </li>
          <May to="keeper">
            <li>
              <a href="/piles/new">{text('page-batch.lay-pile')}</a>
            </li>
          </May>
        </ul>
      </div>
      <BatchList state="open" batches={batches.filter((batch) => batch.endedAt === null)} />
      <BatchList state="other" batches={batches.filter((batch) => batch.endedAt !== null)} />
    </div>
  );
}

/** How many are working, as the page opens. */
export function HowMany({ batches }: { readonly batches: readonly Pick<BatchView, 'endedAt'>[] }) {
  const { text } = useBatchWords();
  const batchCount = batches.filter((batch) => batch.endedAt === null).length;
  return <>{batches.length === 0 ? text('page-batch.none') : text('page-batch.working', { batchCount })}</>;
}

interface BatchListProps {
  readonly state: 'open' | 'other';
  readonly batches: readonly BatchView[];
}

function BatchList({ state, batches }: BatchListProps) {
  const { text } = useBatchWords();
  if (batches.length === 0) return null;
  const id = `batches-${state}`;
  return (
    <section class="site" aria-labelledby={id}>
      <div class="site-name">
        <h2 id={id}>{text('page-batch.list', { state })}</h2>
        <p>{text('page-batch.list.count', { batchCount: batches.length })}</p>
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
  const { text } = useBatchWords(batch.site);
  const nowMs = useServerNow();
  const { stage, pileName, endedAt, ending } = batch;
  const laidDayMs = Date.parse(batch.startedAt);
  const laid = { stage, pileName, laidDayMs };
  return (
    <li>
      <h3>
        <a href={`/batches/${batch.id}`}>{batch.name}</a>
      </h3>
      <p class="quiet">
        {endedAt === null
          ? text('page-batch.line.open', { ...laid, dayCount: batchDay(laidDayMs, nowMs) })
          : text('page-batch.line.ended', { ...laid, ending: ending ?? 'other', endedDayMs: Date.parse(endedAt) })}
      </p>
      <VerdictLine batch={batch} />
      {batch.outcome && <p class="diary-note">{batch.outcome}</p>}
      {batch.reason && <p class="diary-note">{batch.reason}</p>}
    </li>
  );
}
