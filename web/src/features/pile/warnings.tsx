/** The warnings of a pile: what was seen, what to do, by when, with which caution. */

import type { ComponentChildren } from 'preact';
import type { AlarmSummary, PileSummary } from '../../../../shared/contracts/piles.ts';
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
import { severityOf, stateWords } from './alarm-words.ts';
import { Shelve } from './shelve.tsx';
import { type PileWords, usePileWords } from './use-pile-words.ts';
import { whyPath } from './why-facts.ts';
import { writeMeasuredPath } from './write-measured-path.ts';
import './warnings.css';

interface WarningsProps {
  readonly pile: Pick<PileSummary, 'id' | 'alarms' | 'site' | 'tone'>;
  readonly onChange: () => Promise<unknown>;
}

export function Warnings({ pile, onChange }: WarningsProps) {
  const { id: pileId, alarms, site, tone } = pile;
  const { text } = usePileWords(site);
  const { standing, returned, suppressed, silenced, aside } = groupAlarms(alarms);
  const shown = [...standing, ...silenced];
  return (
    <section class="warnings" aria-labelledby="warnings">
      <h2 class="warnings-title" id="warnings">
        {text('page-pile.warnings.title')}
      </h2>
      {shown.length === 0 && (
        <p class="quiet">{text(tone === 'unknown' ? 'page-pile.warnings.unknown' : 'page-pile.warnings.none')}</p>
      )}
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
      {suppressed.map((alarm) => (
        <Hidden key={alarm.id} alarm={alarm} by={alarms.find(({ id }) => id === alarm.suppressedBy)} pileId={pileId} />
      ))}
      {aside.map((alarm) => (
        <Aside key={alarm.id} alarm={alarm} site={site} onChange={onChange} />
      ))}
    </section>
  );
}

interface HiddenProps {
  readonly alarm: AlarmSummary;
  readonly by: AlarmSummary | undefined;
  readonly pileId: string;
}

function Hidden({ alarm, by, pileId }: HiddenProps) {
  const { text, rich } = usePileWords();
  const params = {
    titleText: titleOf(alarm),
    otherText: by ? titleOf(by) : text('page-pile.warnings.other'),
    b: bold,
    unseen,
    why: (inner: ComponentChildren) => <a href={whyPath(pileId, alarm.kind)}>{inner}</a>,
  };
  return <p class="held-back">{rich('page-pile.warnings.hidden', params)}</p>;
}

const bold = (inner: ComponentChildren) => <b>{inner}</b>;
const unseen = (inner: ComponentChildren) => <span class="unseen">{inner}</span>;

/** @example "Noted by Ana, 14:10." */
function notedWords({ by }: NonNullable<AlarmSummary['noted']>, timeText: string, { text }: PileWords): string {
  return text('page-pile.warnings.noted', { byWhom: by !== null, personName: by ?? '', timeText });
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
  const words = usePileWords(site);
  const { text } = words;
  const nowMs = useServerNow();
  const reader = useReader(site);
  const near = (at: string) => nearTime(Date.parse(at), nowMs, reader);
  const stateText = stateWords(alarm, nowMs, reader);
  return (
    <article class={`warning warning-${alarm.severity}`} aria-labelledby={`alarm-${alarm.id}`}>
      <header>
        <h3 id={`alarm-${alarm.id}`}>{titleOf(alarm)}</h3>
        <p class="alarm-state">
          {text('page-pile.warnings.state', { severity: severityOf(alarm), stateText, timeText: near(alarm.since) })}
        </p>
      </header>
      <p class="todo">{said(alarm, 'todo')}</p>
      {alarm.by && <p class="due">{dueSentence(Date.parse(alarm.by) - nowMs, near(alarm.by))}</p>}
      <p>
        <span class="label">{text('page-pile.warnings.seen')}</span> {said(alarm, 'seen')}
        {alarm.noted && ` ${notedWords(alarm.noted, near(alarm.noted.at), words)}`}
      </p>
      {alarm.caution && !isCautionShown && (
        <p class="caution">
          <span class="label">{text('page-pile.caution')}</span> {said(alarm, 'caution')}
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
  const { text, rich } = usePileWords();
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
              {text('page-pile.warnings.unshelve')}
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
              {text('page-pile.warnings.measure')}
            </a>
          </May>
        )}
        <a class="button plain-link" href={whyPath(pileId, alarm.kind)}>
          {rich('page-pile.warnings.why', { titleText: titleOf(alarm), unseen })}
        </a>
      </div>
      <Refusal error={mutation.error} />
    </>
  );
}

/** A warning whose cause has passed before anybody acknowledged it: what it asked for is asked no longer. */
function Returned({ alarm, site, onChange }: WarningProps) {
  const { name } = usePrefs();
  const { text, rich } = usePileWords(site);
  const said = useSaid(renderPile, site);
  const nowMs = useServerNow();
  const reader = useReader(site);
  const mutation = useMutation();
  return (
    <div class="held-back">
      <p>
        {rich('page-pile.warnings.passed', {
          titleText: titleOf(alarm),
          timeText: nearTime(Date.parse(alarm.since), nowMs, reader),
          seenText: said(alarm, 'seen'),
          b: bold,
        })}
      </p>
      <May to="keeper">
        <button
          type="button"
          disabled={mutation.busy}
          onClick={() => mutation.run(() => acknowledge(alarm.id, name || undefined).then(onChange))}
        >
          {text('page-pile.acknowledge')}
        </button>
      </May>
      <Refusal error={mutation.error} />
    </div>
  );
}

/** Put aside by a person after it had passed, or passed while it was put aside. */
function Aside({ alarm, site, onChange }: WarningProps) {
  const { name } = usePrefs();
  const { text, rich } = usePileWords(site);
  const nowMs = useServerNow();
  const reader = useReader(site);
  const mutation = useMutation();
  return (
    <div class="held-back">
      <p>
        {rich('page-pile.warnings.aside', {
          titleText: titleOf(alarm),
          stateText: stateWords(alarm, nowMs, reader),
          b: bold,
        })}
      </p>
      {alarm.state === 'shelved' && (
        <May to="keeper">
          <button
            type="button"
            disabled={mutation.busy}
            onClick={() => mutation.run(() => unshelve(alarm.id, name || undefined).then(onChange))}
          >
            {text('page-pile.warnings.unshelve')}
          </button>
        </May>
      )}
      <Refusal error={mutation.error} />
    </div>
  );
}
