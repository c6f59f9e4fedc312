/** One batch: how it stands, whether it is ready, what went in and came of it, and what to do with it. */

import { useState } from 'preact/hooks';
import { useRoute } from 'preact-iso';
import type { BatchDetail } from '../../../../shared/contracts/lineage.ts';
import { reasonOf } from '../../data/client.ts';
import { useQuery } from '../../data/use-query.ts';
import { FileLink } from '../../ui/parts/file-link.tsx';
import { May } from '../../ui/parts/only-for.tsx';
import { Part } from '../../ui/parts/part.tsx';
import { usePage } from '../../ui/parts/use-page.ts';
import { VerdictPart } from '../verdict/verdict-part.tsx';
import { getBatch } from './batch-api.ts';
import { batchSentence } from './batch-words.ts';
import { ContinueForm } from './continue-form.tsx';
import { CameOfIt, WentIn } from './in-and-out.tsx';
import { MergeForm } from './merge-form.tsx';
import { ReadinessPart } from './readiness-part.tsx';
import { AbandonForm, KeepForm, OutcomeForm } from './small-forms.tsx';
import { SplitForm } from './split-form.tsx';
import { useBatchWords } from './use-batch-words.ts';
import { UseForm } from './use-form.tsx';
import './batch.css';

export function BatchPage() {
  const { params } = useRoute();
  const id = params.id ?? '';
  const { value, error, refresh } = useQuery(id, () => getBatch(id));
  if (value) return <Batch key={id} batch={value} refresh={refresh} />;
  return <NoBatch error={error} />;
}

function NoBatch({ error }: { readonly error: unknown }) {
  const { text } = useBatchWords();
  const heading = usePage(text('page-batch.batch'));
  return (
    <div class="page narrow">
      <h1 ref={heading} tabIndex={-1}>
        {error === undefined ? text('page-batch.batch.looking') : text('page-batch.batch.none')}
      </h1>
      {error !== undefined && (
        <p class="lead">
          {reasonOf(error)} <a href="/batches">{text('page-batch.batch.back')}</a>
        </p>
      )}
    </div>
  );
}

function Batch({ batch, refresh }: { readonly batch: BatchDetail; readonly refresh: () => Promise<void> }) {
  const words = useBatchWords(batch.site);
  const { text, rich } = words;
  const heading = usePage(batch.name);
  return (
    <div class="page batch-page">
      <header class="opening">
        <p class="dateline">
          {rich('page-batch.dateline', {
            pileName: batch.pileName,
            pile: (inner) => <a href={`/piles/${batch.pileId}`}>{inner}</a>,
            stage: batch.stage,
          })}
        </p>
        <h1 ref={heading} tabIndex={-1}>
          {batch.name}
        </h1>
        <p class="sentence">{batchSentence(batch, words)}</p>
        {batch.reason && <p class="lead">{text('page-batch.reason', { reasonText: batch.reason })}</p>}
        {batch.outcome && <p class="lead">{text('page-batch.outcome', { outcomeText: batch.outcome })}</p>}
        <ul class="batch-links">
          <li>
            <a href={`/batches/${batch.id}/record`}>{text('page-batch.its-record')}</a>
          </li>
          <li>
            <a href={`/lineage?start=batch:${batch.id}`}>{text('page-batch.its-family')}</a>
          </li>
          <li>
            <a href={`/seasons/like/${batch.id}`}>{text('page-batch.its-like')}</a>
          </li>
          <li>
            <a href={`/piles/${batch.pileId}/journal`}>{text('page-batch.its-journal')}</a>
          </li>
          <li>
            <FileLink path={`/api/batches/${batch.id}/record.pdf`} name={`${batch.id}.pdf`}>
              {text('page-batch.its-pdf')}
            </FileLink>
          </li>
        </ul>
      </header>
      {batch.endedAt !== null && <VerdictPart batch={batch} onChange={refresh} />}
      <ReadinessPart batch={batch} />
      <May to="keeper">
        <WhatNext batch={batch} refresh={refresh} />
      </May>
      <WentIn batch={batch} onChange={refresh} />
      <CameOfIt batch={batch} />
    </div>
  );
}

const actions = ['continue', 'use', 'split', 'merge', 'keep', 'outcome', 'abandon'] as const;
type Mutation = (typeof actions)[number];

/** What has left its ground, or was given up, has nothing left to be done with. */
function actionsOf(batch: BatchDetail): readonly Mutation[] {
  if (batch.ending === null) return actions;
  return batch.ending === 'finished' ? ['continue', 'use', 'split', 'keep', 'outcome'] : ['use', 'outcome'];
}

function WhatNext({ batch, refresh }: { readonly batch: BatchDetail; readonly refresh: () => Promise<void> }) {
  const { text } = useBatchWords();
  const [open, setOpen] = useState<Mutation | null>(null);
  const after = async () => {
    await refresh();
    setOpen(null);
  };
  const possible = actionsOf(batch);
  return (
    <Part id="what-next" title={text('page-batch.next')}>
      <div class="batch-actions">
        {actions
          .filter((act) => possible.includes(act))
          .map((act) => (
            <button
              type="button"
              key={act}
              aria-pressed={act === open}
              class="batch-action"
              onClick={() => setOpen(act === open ? null : act)}
            >
              <b>{text('page-batch.next.of', { act })}</b>
              <span>{text('page-batch.next.says', { act })}</span>
            </button>
          ))}
      </div>
      {open && (
        <div class="batch-action-form">
          <h3 class="sub-head">{text('page-batch.next.of', { act: open })}</h3>
          {open === 'continue' && <ContinueForm batch={batch} />}
          {open === 'use' && <UseForm batch={batch} onDone={after} />}
          {open === 'split' && <SplitForm batch={batch} onDone={after} />}
          {open === 'merge' && <MergeForm batch={batch} />}
          {open === 'keep' && <KeepForm batch={batch} onDone={after} />}
          {open === 'outcome' && <OutcomeForm batch={batch} onDone={after} />}
          {open === 'abandon' && <AbandonForm batch={batch} onDone={after} />}
        </div>
      )}
    </Part>
  );
}
