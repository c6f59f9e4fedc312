/** Every batch in a line, those that work first, found and put in order; and the way to lots and the family tree. */

import { useState } from 'preact/hooks';
import { useLocation } from 'preact-iso';
import type { BatchView } from '../../../../shared/contracts/lineage.ts';
import { reasonOf } from '../../data/client.ts';
import { useQuery } from '../../data/use-query.ts';
import { PickField, TextField } from '../../ui/parts/forms.tsx';
import { May } from '../../ui/parts/only-for.tsx';
import { usePage } from '../../ui/parts/use-page.ts';
import { getBatches } from './batch-api.ts';
import { BatchLine } from './batch-line.tsx';
import {
  type BatchesView,
  batchesAddress,
  batchOrders,
  chosenBatches,
  type ListedBatch,
  readBatchesView,
} from './batches-view.ts';
import { useBatchWords } from './use-batch-words.ts';
import { useListedBatches } from './use-listed-batches.ts';
import './batch.css';
import './batches-page.css';

/** From so many on they are looked for, and not at. */
const many = 7;
const shownAtFirst = 100;

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
      {value && <Batches batches={batches} />}
    </div>
  );
}

function Batches({ batches }: { readonly batches: readonly BatchView[] }) {
  const { text } = useBatchWords();
  const { query, route } = useLocation();
  const view = readBatchesView(query);
  const chosen = chosenBatches(useListedBatches(batches), view);
  const go = (change: Partial<BatchesView>) => route(batchesAddress({ ...view, ...change }), true);
  return (
    <>
      {batches.length >= many && (
        <search class="form batch-search">
          <TextField label={text('page-batch.find')} value={view.find} onValue={(find) => go({ find })} />
          <PickField
            label={text('page-batch.order')}
            value={view.order}
            choices={batchOrders.map((order) => [
              order,
              text('page-batch.order.of', { order: order === 'name' ? 'other' : order }),
            ])}
            onValue={(order) => go({ order })}
          />
          <p class="batch-search-found" role="status">
            {view.find.trim() !== '' &&
              text('page-batch.found', { foundCount: chosen.length, batchCount: batches.length })}
          </p>
        </search>
      )}
      <BatchList state="open" listed={chosen.filter(({ batch }) => batch.endedAt === null)} />
      <BatchList state="other" listed={chosen.filter(({ batch }) => batch.endedAt !== null)} />
    </>
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
  readonly listed: readonly ListedBatch[];
}

function BatchList({ state, listed }: BatchListProps) {
  const { text } = useBatchWords();
  const [isWhole, setWhole] = useState(false);
  if (listed.length === 0) return null;
  const id = `batches-${state}`;
  const shown = isWhole ? listed : listed.slice(0, shownAtFirst);
  return (
    <section class="batch-part" aria-labelledby={id}>
      <div class="batch-part-name">
        <h2 id={id}>{text('page-batch.list', { state })}</h2>
        <p>{text('page-batch.list.count', { batchCount: listed.length })}</p>
      </div>
      <ol>
        {shown.map((one) => (
          <BatchLine key={one.batch.id} listed={one} />
        ))}
      </ol>
      {shown.length < listed.length && (
        <button type="button" class="batch-part-more" onClick={() => setWhole(true)}>
          {text('page-batch.list.all', { batchCount: listed.length })}
        </button>
      )}
    </section>
  );
}
