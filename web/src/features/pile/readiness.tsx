/**
 * What speaks for a batch being done, point by point, and the word that only a person can give. It never says ready for
 * the probes: the last point is a person's smell and look.
 */

import { hazardStands } from '../../../../core/alarms/precedence.ts';
import type { PileDetail } from '../../../../shared/contracts/piles.ts';
import { ApiProblem } from '../../data/client.ts';
import { useReader, useServerNow } from '../../data/live/use-installation.ts';
import { useSay } from '../../data/live/use-say.ts';
import { useQuery } from '../../data/use-query.ts';
import { nearTime } from '../../ui/format/local-time.ts';
import { renderReadiness } from '../../ui/format/render-readiness.ts';
import { Refusal } from '../../ui/parts/forms.tsx';
import { May } from '../../ui/parts/only-for.tsx';
import { Part } from '../../ui/parts/part.tsx';
import { lastWordOf, wordSentence } from './person-word.ts';
import { ReadinessForm } from './readiness-form.tsx';
import { getReadinessWords } from './readiness-words.ts';
import { usePileWords } from './use-pile-words.ts';
import './readiness.css';

interface ReadinessProps {
  readonly pile: PileDetail;
  readonly onChange: () => Promise<unknown>;
}

export function Readiness({ pile, onChange }: ReadinessProps) {
  const { text } = usePileWords(pile.site);
  const say = useSay(renderReadiness, pile.site);
  if (!pile.batch || !pile.judgement) return null;
  const { points, messages, proposal } = pile.judgement.readiness;
  // What its heat did to it is for a person to judge, however warm it still is.
  const mayBeLost = pile.batch.heat?.places.some((place) => place.mayBeLost) === true;
  return (
    <Part id="readiness" title={text('page-pile.done.title')}>
      <ul class="points">
        {points.map(({ what, seen, messages: { says } }) => (
          <li key={what}>
            <PointMark seen={seen} />
            <span>
              <b>{text('page-pile.done.seen', { seen })}</b> {say(says)}
            </span>
          </li>
        ))}
      </ul>
      {hazardStands(pile.alarms) ? (
        <p class="next">{text('page-pile.done.hazard')}</p>
      ) : (
        <>
          <p class="next">{say(messages.next)}</p>
          <p class="hint">{text('page-pile.done.hint')}</p>
        </>
      )}
      {(proposal !== 'not-yet' || mayBeLost) && <PersonsWord pile={pile} batchId={pile.batch.id} onChange={onChange} />}
    </Part>
  );
}

/** An open ring, or one that is filled and ticked: known by shape, and by the word beside it. */
function PointMark({ seen }: { readonly seen: boolean }) {
  return (
    <svg class={seen ? 'point-mark point-seen' : 'point-mark'} viewBox="0 0 20 20" aria-hidden="true">
      <circle cx="10" cy="10" r="8" />
      {seen && <path d="M5.8 10.4 8.8 13.3 14.4 7" />}
    </svg>
  );
}

/** Left out where the server does not keep such entries yet. */
function PersonsWord({ pile, batchId, onChange }: ReadinessProps & { readonly batchId: string }) {
  const words = usePileWords(pile.site);
  const reader = useReader(pile.site);
  const nowMs = useServerNow();
  const { value, error, refresh } = useQuery(`${pile.id} ${batchId}`, () => getReadinessWords(pile.id));
  if (error instanceof ApiProblem && error.problem.status === 404) return null;
  if (error !== undefined && value === undefined) return <Refusal error={error} />;
  if (!value) return null;
  const last = lastWordOf(value.entries, batchId);
  return (
    <>
      {last && (
        <p class="persons-word">
          {wordSentence(last, nearTime(Date.parse(last.at), nowMs, reader), words)}
          {last.note && <span class="diary-note"> {last.note}</span>}
        </p>
      )}
      <May to="keeper">
        <ReadinessForm pile={pile} onDone={() => Promise.all([refresh(), onChange()])} isFirst={last === undefined} />
      </May>
    </>
  );
}
