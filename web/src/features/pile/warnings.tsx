/** The warnings of a pile: what was seen, what to do, by when, with which caution. */

import type { AlarmSummary } from '../../../../shared/contracts/piles.ts';
import { isMeasureAsked } from '../../../../shared/messages/measure-asked.ts';
import { useReader, useServerNow } from '../../data/live/use-installation.ts';
import { useSaid } from '../../data/live/use-say.ts';
import { usePrefs } from '../../data/prefs.ts';
import { acknowledge, shelve, unshelve } from '../../data/routes.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { dueSentence } from '../../ui/format/age.ts';
import { nearTime } from '../../ui/format/local-time.ts';
import { renderPile } from '../../ui/format/render-pile.ts';
import { warningTitle } from '../../ui/format/words.ts';
import { Refusal } from '../../ui/parts/forms.tsx';
import { May } from '../../ui/parts/only-for.tsx';
import { groupAlarms } from './alarm-order.ts';
import { Steps } from './alarm-steps.tsx';
import { stateWords } from './alarm-words.ts';
import { Shelve } from './shelve.tsx';
import { whyPath } from './why-facts.ts';
import { writeMeasuredPath } from './write-measured-path.ts';
import './warnings.css';

interface WarningsProps {
  readonly pileId: string;
  readonly alarms: readonly AlarmSummary[];
  readonly site: string;
  readonly onChange: () => Promise<unknown>;
}

export function Warnings({ pileId, alarms, site, onChange }: WarningsProps) {
  const { standing, returned, heldBack, silenced, aside } = groupAlarms(alarms);
  const shown = [...standing, ...silenced];
  const nameOf = (id: string) => {
    const alarm = alarms.find((one) => one.id === id);
    return alarm ? titleOf(alarm) : 'another warning';
  };
  return (
    <section class="warnings" aria-labelledby="warnings">
      <h2 class="warnings-title" id="warnings">
        Warnings
      </h2>
      {shown.length === 0 && <p class="quiet">No warning stands.</p>}
      {shown.map((alarm, i) => (
        <Warning
          key={alarm.id}
          pileId={pileId}
          alarm={alarm}
          site={site}
          onChange={onChange}
          // The same caution twice on one page is read less, not more.
          isCautionShown={shown.slice(0, i).some((before) => before.caution === alarm.caution)}
        />
      ))}
      {returned.map((alarm) => (
        <Returned key={alarm.id} alarm={alarm} site={site} onChange={onChange} />
      ))}
      {heldBack.map((alarm) => (
        <p class="held-back" key={alarm.id}>
          <b>{titleOf(alarm)}</b> is hidden while “{nameOf(alarm.heldBackBy ?? '')}” stands, which explains it.{' '}
          <a href={whyPath(pileId, alarm.kind)}>
            Why<span class="unseen"> {titleOf(alarm)} is hidden</span>
          </a>
        </p>
      ))}
      {aside.map((alarm) => (
        <Aside key={alarm.id} alarm={alarm} site={site} onChange={onChange} />
      ))}
    </section>
  );
}

/** @example "Noted by Ana, 14:10." */
function notedWords({ by }: NonNullable<AlarmSummary['noted']>, time: string): string {
  return by === null ? `Noted ${time}.` : `Noted by ${by}, ${time}.`;
}

function titleOf({ kind, position }: AlarmSummary): string {
  return warningTitle(kind, position);
}

interface WarningProps {
  readonly alarm: AlarmSummary;
  readonly site: string;
  readonly onChange: () => Promise<unknown>;
}

interface StandingProps extends WarningProps {
  readonly pileId: string;
  readonly isCautionShown: boolean;
}

function Warning({ pileId, alarm, site, onChange, isCautionShown }: StandingProps) {
  const said = useSaid(renderPile, site);
  const nowMs = useServerNow();
  const reader = useReader(site);
  return (
    <article class={`warning warning-${alarm.severity}`} aria-labelledby={`alarm-${alarm.id}`}>
      <header>
        <h3 id={`alarm-${alarm.id}`}>{titleOf(alarm)}</h3>
        <p class="alarm-state">
          {alarm.severity}, {stateWords(alarm, nowMs, reader)}, since {nearTime(Date.parse(alarm.since), nowMs, reader)}
        </p>
      </header>
      <p class="todo">{said(alarm, 'todo')}</p>
      {alarm.by && (
        <p class="due">{dueSentence(Date.parse(alarm.by) - nowMs, nearTime(Date.parse(alarm.by), nowMs, reader))}</p>
      )}
      <p>
        <span class="label">Seen</span> {said(alarm, 'seen')}
        {alarm.noted && ` ${notedWords(alarm.noted, nearTime(Date.parse(alarm.noted.at), nowMs, reader))}`}
      </p>
      {alarm.caution && !isCautionShown && (
        <p class="caution">
          <span class="label">Caution</span> {said(alarm, 'caution')}
        </p>
      )}
      <Answers pileId={pileId} alarm={alarm} onChange={onChange} />
      <Steps alarm={alarm} site={site} />
    </article>
  );
}

/** What can be done about a warning itself, and where its reasons stand. */
function Answers({ pileId, alarm, onChange }: Pick<StandingProps, 'pileId' | 'alarm' | 'onChange'>) {
  const { name } = usePrefs();
  const mutation = useMutation();
  const act = (request: () => Promise<unknown>) => mutation.run(() => request().then(onChange));
  return (
    <>
      <div class="buttons">
        <May to="keeper">
          {alarm.state === 'shelved' ? (
            <button
              type="button"
              disabled={mutation.busy}
              onClick={() => act(() => unshelve(alarm.id, name || undefined))}
            >
              Unshelve
            </button>
          ) : (
            <Shelve
              busy={mutation.busy}
              onShelve={(minutes) => act(() => shelve(alarm.id, minutes, name || undefined))}
            />
          )}
        </May>
        {alarm.messages && isMeasureAsked(alarm.messages.todo) && (
          <May to="keeper">
            <a class="button" href={writeMeasuredPath(pileId, alarm.position)}>
              Write down what you measure
            </a>
          </May>
        )}
        <a class="button plain-link" href={whyPath(pileId, alarm.kind)}>
          Why it says so<span class="unseen"> of {titleOf(alarm)}</span>
        </a>
      </div>
      <Refusal error={mutation.error} />
    </>
  );
}

/** A warning whose cause has passed before anybody acknowledged it: what it asked for is asked no longer. */
function Returned({ alarm, site, onChange }: WarningProps) {
  const { name } = usePrefs();
  const said = useSaid(renderPile, site);
  const nowMs = useServerNow();
  const reader = useReader(site);
  const mutation = useMutation();
  return (
    <div class="held-back">
      <p>
        <b>{titleOf(alarm)}</b> stood since {nearTime(Date.parse(alarm.since), nowMs, reader)} and has passed,
        unacknowledged. What was seen: {said(alarm, 'seen')}
      </p>
      <May to="keeper">
        <button
          type="button"
          disabled={mutation.busy}
          onClick={() => mutation.run(() => acknowledge(alarm.id, name || undefined).then(onChange))}
        >
          Acknowledge
        </button>
      </May>
      <Refusal error={mutation.error} />
    </div>
  );
}

/** Put aside by a person after it had passed, or passed while it was put aside. */
function Aside({ alarm, site, onChange }: WarningProps) {
  const { name } = usePrefs();
  const nowMs = useServerNow();
  const reader = useReader(site);
  const mutation = useMutation();
  return (
    <div class="held-back">
      <p>
        <b>{titleOf(alarm)}</b> has passed, and is {stateWords(alarm, nowMs, reader)}.
      </p>
      {alarm.state === 'shelved' && (
        <May to="keeper">
          <button
            type="button"
            disabled={mutation.busy}
            onClick={() => mutation.run(() => unshelve(alarm.id, name || undefined).then(onChange))}
          >
            Unshelve
          </button>
        </May>
      )}
      <Refusal error={mutation.error} />
    </div>
  );
}
