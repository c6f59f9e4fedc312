/** The warnings of a practice pile, as the page of a real one shows them. */
import type { ComponentChildren } from 'preact';
import type { AlarmSummary } from '../../../../shared/contracts/piles.ts';
import { useReader, useServerNow } from '../../data/live/use-installation.ts';
import { useSaid } from '../../data/live/use-say.ts';
import { dueSentence } from '../../ui/format/age.ts';
import { nearTime } from '../../ui/format/local-time.ts';
import { renderPile } from '../../ui/format/render-pile.ts';
import { warningTitle } from '../../ui/format/words.ts';
import { groupAlarms } from '../pile/alarm-order.ts';
import { acknowledgeAlarm } from './run-keeper.ts';
import { usePracticeWords } from './use-practice-words.ts';
import '../pile/warnings.css';
import './tending.css';

interface PracticeWarningsProps {
  readonly alarms: readonly AlarmSummary[];
  readonly stoppedBy: AlarmSummary | null;
}

const bold = (inner: ComponentChildren) => <b>{inner}</b>;

export function PracticeWarnings({ alarms, stoppedBy }: PracticeWarningsProps) {
  const { text, rich } = usePracticeWords();
  const said = useSaid(renderPile);
  const { standing, returned, suppressed } = groupAlarms(alarms);
  return (
    <section class="warnings" aria-labelledby="warnings">
      <h2 class="warnings-title" id="warnings">
        {text('page-practice.warnings')}
      </h2>
      {stoppedBy && <p class="clock-stands">{text('page-practice.warnings.clock-stands')}</p>}
      {standing.length === 0 && <p class="quiet">{text('page-practice.warnings.none')}</p>}
      {standing.map((alarm) => (
        <Warning key={alarm.id} alarm={alarm} />
      ))}
      {returned.map((alarm) => (
        <div class="held-back" key={alarm.id}>
          <p>
            {rich('page-practice.warnings.passed', {
              b: bold,
              warningText: titleOf(alarm),
              seenText: said(alarm, 'seen'),
            })}
          </p>
          <Acknowledge alarm={alarm} />
        </div>
      ))}
      {suppressed.map((alarm) => (
        <p class="held-back" key={alarm.id}>
          {rich('page-practice.warnings.hidden', { b: bold, warningText: titleOf(alarm) })}
        </p>
      ))}
    </section>
  );
}

function titleOf({ kind, position }: AlarmSummary): string {
  return warningTitle(kind, position);
}

function Acknowledge({ alarm }: { readonly alarm: AlarmSummary }) {
  const { text } = usePracticeWords();
  return (
    <p class="buttons practice-acknowledge">
      <button type="button" onClick={() => acknowledgeAlarm(alarm.id)}>
        {text('page-practice.warnings.acknowledge')}
      </button>
      <span class="quiet">{text('page-practice.warnings.acknowledge.means')}</span>
    </p>
  );
}

/** As its state is worded; the others are no states of practice. */
const stateOf = ({ state }: AlarmSummary) =>
  state === 'returned-unacknowledged'
    ? 'returned'
    : state === 'unacknowledged' || state === 'acknowledged'
      ? state
      : 'other';

function Warning({ alarm }: { readonly alarm: AlarmSummary }) {
  const { text } = usePracticeWords();
  const said = useSaid(renderPile);
  const nowMs = useServerNow();
  const reader = useReader();
  return (
    <article class={`warning warning-${alarm.severity}`} aria-labelledby={`alarm-${alarm.id}`}>
      <header>
        <h3 id={`alarm-${alarm.id}`}>{titleOf(alarm)}</h3>
        <p class="alarm-state">
          {text('page-practice.warnings.state', {
            severity: alarm.severity,
            state: stateOf(alarm),
            sinceText: nearTime(Date.parse(alarm.since), nowMs, reader),
          })}
        </p>
      </header>
      <p class="todo">{said(alarm, 'todo')}</p>
      {alarm.by && (
        <p class="due">{dueSentence(Date.parse(alarm.by) - nowMs, nearTime(Date.parse(alarm.by), nowMs, reader))}</p>
      )}
      <details class="more">
        <summary>{text('page-practice.warnings.more', { hasCaution: alarm.caution !== null })}</summary>
        <p>
          <span class="label">{text('page-practice.warnings.seen')}</span> {said(alarm, 'seen')}
        </p>
        {alarm.caution && (
          <p class="caution">
            <span class="label">{text('page-practice.caution')}</span> {said(alarm, 'caution')}
          </p>
        )}
      </details>
      {alarm.state !== 'acknowledged' && <Acknowledge alarm={alarm} />}
    </article>
  );
}
