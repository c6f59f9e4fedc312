/** One batch: how it stands, whether it is ready, what went in and came of it, and what to do with it. */

import { useState } from 'preact/hooks';
import { useRoute } from 'preact-iso';
import type { BatchDetail } from '../../../../shared/contracts/lineage.ts';
import { reasonOf } from '../../data/client.ts';
import { useReader } from '../../data/live/use-installation.ts';
import { useQuery } from '../../data/use-query.ts';
import { fullDay } from '../../ui/format/full-date.ts';
import { capital, stageNames } from '../../ui/format/words.ts';
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
  const heading = usePage('Batch');
  return (
    <div class="page narrow">
      <h1 ref={heading} tabIndex={-1}>
        {error === undefined ? 'Looking at the batch…' : 'The batch cannot be shown.'}
      </h1>
      {error !== undefined && (
        <p class="lead">
          {reasonOf(error)} <a href="/batches">Go to the batches</a>
        </p>
      )}
    </div>
  );
}

function Batch({ batch, refresh }: { readonly batch: BatchDetail; readonly refresh: () => Promise<void> }) {
  const heading = usePage(batch.name);
  const reader = useReader(batch.site);
  return (
    <div class="page batch-page">
      <header class="opening">
        <p class="dateline">
          <a href={`/piles/${batch.pileId}`}>{batch.pileName}</a>, {stageNames[batch.stage]}
        </p>
        <h1 ref={heading} tabIndex={-1}>
          {batch.name}
        </h1>
        <p class="sentence">{batchSentence(batch, (instant) => fullDay(Date.parse(instant), reader))}</p>
        {batch.reason && <p class="lead">Why it was abandoned: {batch.reason}</p>}
        {batch.outcome && <p class="lead">How it came out: {batch.outcome}</p>}
        <ul class="batch-links">
          <li>
            <a href={`/batches/${batch.id}/record`}>Its record</a>
          </li>
          <li>
            <a href={`/lineage?start=batch:${batch.id}`}>Its family tree</a>
          </li>
          <li>
            <a href={`/seasons/like/${batch.id}`}>Past batches like it</a>
          </li>
          <li>
            <a href={`/piles/${batch.pileId}/journal`}>The pile’s journal</a>
          </li>
          <li>
            <FileLink path={`/api/batches/${batch.id}/record.pdf`} name={`${batch.id}.pdf`}>
              PDF of the record
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

const actions = [
  ['continue', 'Move to the next stage', 'To the next stage, mixed with soil or compost.'],
  ['use', 'Use it', 'On a bed, in compost, given away.'],
  ['split', 'Split', 'Some of it goes elsewhere.'],
  ['merge', 'Put together', 'With another batch.'],
  ['keep', 'Keep a part', 'As a starter for later.'],
  ['outcome', 'Name and outcome', 'What it is called, how it came out.'],
  ['abandon', 'Abandon it', 'With the reason.'],
] as const;
type Mutation = (typeof actions)[number][0];

/** What has left its ground, or was given up, has nothing left to be done with. */
function actionsOf(batch: BatchDetail): readonly Mutation[] {
  if (batch.ending === null) return actions.map(([id]) => id);
  return batch.ending === 'finished' ? ['continue', 'use', 'split', 'keep', 'outcome'] : ['use', 'outcome'];
}

function WhatNext({ batch, refresh }: { readonly batch: BatchDetail; readonly refresh: () => Promise<void> }) {
  const [open, setOpen] = useState<Mutation | null>(null);
  const after = async () => {
    await refresh();
    setOpen(null);
  };
  const possible = actionsOf(batch);
  return (
    <Part id="what-next" title="What is done with it">
      <div class="batch-actions">
        {actions
          .filter(([id]) => possible.includes(id))
          .map(([id, words, says]) => (
            <button
              type="button"
              key={id}
              aria-pressed={id === open}
              class="batch-action"
              onClick={() => setOpen(id === open ? null : id)}
            >
              <b>{words}</b>
              <span>{says}</span>
            </button>
          ))}
      </div>
      {open && (
        <div class="batch-action-form">
          <h3 class="sub-head">{capital(actions.find(([id]) => id === open)?.[1] ?? '')}</h3>
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
