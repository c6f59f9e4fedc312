/**
 * What the probes saw beside what a person smelt and saw, and what to look for in words. It never lets the probes say
 * ready; a person does, and what the probes saw otherwise still stands beside it.
 */

import { useState } from 'preact/hooks';
import type { BatchDetail } from '../../../../shared/contracts/lineage.ts';
import type { Readiness } from '../../../../shared/contracts/readiness.ts';
import { reasonOf } from '../../data/client.ts';
import { useReader } from '../../data/live/use-installation.ts';
import { useSay } from '../../data/live/use-say.ts';
import { useStore } from '../../data/store.ts';
import { useQuery, useThrottled } from '../../data/use-query.ts';
import { dayAndTime } from '../../ui/format/local-time.ts';
import { renderReadiness } from '../../ui/format/render-readiness.ts';
import { May } from '../../ui/parts/only-for.tsx';
import { Part } from '../../ui/parts/part.tsx';
import { emptyEntry } from '../journal/entry-draft.ts';
import { EntryForm } from '../journal/entry-form.tsx';
import { waiting, writeDown } from '../journal/waiting.ts';
import { getReadiness } from './batch-api.ts';
import { useBatchWords } from './use-batch-words.ts';
import './batch.css';

export function ReadinessPart({ batch }: { readonly batch: BatchDetail }) {
  const { text } = useBatchWords();
  const { value, error, refresh } = useQuery(batch.id, () => getReadiness(batch.id));
  const [isAsking, setAsking] = useState(false);
  const keptCount = useStore(waiting, (now) => now.keptCount);
  useThrottled(keptCount, 0, () => void refresh());
  return (
    <Part id="ready" title={text('page-batch.ready')}>
      {error !== undefined && <p class="quiet">{reasonOf(error)}</p>}
      {value && <ReadinessFacts readiness={value} site={batch.site} isAsking={isAsking} />}
      <May to="keeper">
        {batch.endedAt === null &&
          (isAsking ? (
            <EntryForm
              pileId={batch.pileId}
              first={emptyEntry('readiness')}
              onLeave={() => setAsking(false)}
              onWrite={async (entry) => {
                await writeDown(batch.pileId, entry);
                setAsking(false);
              }}
            />
          ) : (
            <p class="readiness-ask">
              <button type="button" class="primary" onClick={() => setAsking(true)}>
                {text('page-batch.ready.say')}
              </button>
            </p>
          ))}
      </May>
    </Part>
  );
}

interface ReadinessFactsProps {
  readonly readiness: Readiness;
  readonly site: string;
  /** Somebody is about to smell and look: what to find stands open, and the form says how to smell. */
  readonly isAsking?: boolean;
}

export function ReadinessFacts({ readiness, site, isAsking = false }: ReadinessFactsProps) {
  const { text } = useBatchWords();
  const say = useSay(renderReadiness, site);
  const { says } = readiness.messages;
  const cautions = readiness.messages.cautions.filter(({ code }) => !isAsking || code !== 'caution.smelling');
  return (
    <>
      <p class="sentence">{say(says)}</p>
      <BothSaw readiness={readiness} site={site} />
      {cautions.map((caution) => (
        <p class="caution" key={caution.code}>
          <span class="label">{text('page-batch.caution')}</span> {say(caution)}
        </p>
      ))}
      <WhatToFind readiness={readiness} site={site} isOpen={isAsking} />
    </>
  );
}

function BothSaw({ readiness: { person, signs }, site }: Pick<ReadinessFactsProps, 'readiness' | 'site'>) {
  const { text, rich } = useBatchWords();
  const say = useSay(renderReadiness, site);
  const reader = useReader(site);
  return (
    <div class="readiness-two">
      <div>
        <h3>{text('page-batch.ready.probes')}</h3>
        <ul class="signs">
          {signs.map(({ sign, evidence, messages }) => (
            <li key={sign} class={`sign sign-${evidence}`}>
              <b>{text('page-batch.ready.evidence', { evidence })}</b> {say(messages.says)}
            </li>
          ))}
        </ul>
      </div>
      <div>
        <h3>{text('page-batch.ready.person')}</h3>
        {person ? (
          <p>
            {rich('page-batch.ready.said', {
              timeText: dayAndTime(Date.parse(person.at), reader),
              isNamed: person.by !== null,
              personName: person.by ?? '',
              smell: person.smell,
              look: person.look,
              isReady: person.ready,
              b: (inner) => <b>{inner}</b>,
            })}
            {person.note && <span class="diary-note">{person.note}</span>}
          </p>
        ) : (
          <p class="quiet">{text('page-batch.ready.nobody')}</p>
        )}
      </div>
    </div>
  );
}

interface WhatToFindProps extends Pick<ReadinessFactsProps, 'readiness' | 'site'> {
  readonly isOpen: boolean;
}

function WhatToFind({ readiness, site, isOpen }: WhatToFindProps) {
  const { text } = useBatchWords();
  const say = useSay(renderReadiness, site);
  const { good, bad } = readiness.messages;
  return (
    <details class="more readiness-look" open={isOpen}>
      <summary>{text('page-batch.ready.find')}</summary>
      <div class="readiness-two">
        <div>
          <h3>{text('page-batch.ready.find.good')}</h3>
          <ul class="look-for look-good">
            {good.map((one) => (
              <li key={one.code}>{say(one)}</li>
            ))}
          </ul>
        </div>
        <div>
          <h3>{text('page-batch.ready.find.bad')}</h3>
          <ul class="look-for look-bad">
            {bad.map((one) => (
              <li key={one.code}>{say(one)}</li>
            ))}
          </ul>
        </div>
      </div>
    </details>
  );
}
