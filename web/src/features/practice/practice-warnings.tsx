/** The warnings of a practice pile, as the page of a real one shows them. */
import type { AlarmSummary } from '../../../../shared/contracts/piles.ts';
import { useReader, useServerNow } from '../../data/live/use-installation.ts';
import { useSaid } from '../../data/live/use-say.ts';
import { dueSentence } from '../../ui/format/age.ts';
import { nearTime } from '../../ui/format/local-time.ts';
import { renderPile } from '../../ui/format/render-pile.ts';
import { alarmStateNames, warningTitle } from '../../ui/format/words.ts';
import { groupAlarms } from '../pile/alarm-order.ts';
import { acknowledgeAlarm } from './run-keeper.ts';
import '../pile/warnings.css';
import './tending.css';

interface PracticeWarningsProps {
  readonly alarms: readonly AlarmSummary[];
  readonly stoppedBy: AlarmSummary | null;
}

export function PracticeWarnings({ alarms, stoppedBy }: PracticeWarningsProps) {
  const said = useSaid(renderPile);
  const { standing, returned, heldBack } = groupAlarms(alarms);
  return (
    <section class="warnings" aria-labelledby="warnings">
      <h2 class="warnings-title" id="warnings">
        Warnings
      </h2>
      {stoppedBy && <p class="clock-stands">The clock stands still: a new warning.</p>}
      {standing.length === 0 && <p class="quiet">No warning stands.</p>}
      {standing.map((alarm) => (
        <Warning key={alarm.id} alarm={alarm} />
      ))}
      {returned.map((alarm) => (
        <div class="held-back" key={alarm.id}>
          <p>
            <b>{titleOf(alarm)}</b> has passed, unacknowledged. What was seen: {said(alarm, 'seen')}
          </p>
          <Acknowledge alarm={alarm} />
        </div>
      ))}
      {heldBack.map((alarm) => (
        <p class="held-back" key={alarm.id}>
          <b>{titleOf(alarm)}</b> is hidden while another warning stands, which explains it.
        </p>
      ))}
    </section>
  );
}

function titleOf({ kind, position }: AlarmSummary): string {
  return warningTitle(kind, position);
}

function Acknowledge({ alarm }: { readonly alarm: AlarmSummary }) {
  return (
    <p class="buttons practice-acknowledge">
      <button type="button" onClick={() => acknowledgeAlarm(alarm.id)}>
        Acknowledge
      </button>
      <span class="quiet">says that you have seen it</span>
    </p>
  );
}

function Warning({ alarm }: { readonly alarm: AlarmSummary }) {
  const said = useSaid(renderPile);
  const nowMs = useServerNow();
  const reader = useReader();
  return (
    <article class={`warning warning-${alarm.severity}`} aria-labelledby={`alarm-${alarm.id}`}>
      <header>
        <h3 id={`alarm-${alarm.id}`}>{titleOf(alarm)}</h3>
        <p class="alarm-state">
          {alarm.severity}, {alarmStateNames[alarm.state]}, since {nearTime(Date.parse(alarm.since), nowMs, reader)}
        </p>
      </header>
      <p class="todo">{said(alarm, 'todo')}</p>
      {alarm.by && (
        <p class="due">{dueSentence(Date.parse(alarm.by) - nowMs, nearTime(Date.parse(alarm.by), nowMs, reader))}</p>
      )}
      <details class="more">
        <summary>What was seen{alarm.caution && ', and the caution'}</summary>
        <p>
          <span class="label">Seen</span> {said(alarm, 'seen')}
        </p>
        {alarm.caution && (
          <p class="caution">
            <span class="label">Caution</span> {said(alarm, 'caution')}
          </p>
        )}
      </details>
      {alarm.state !== 'acknowledged' && <Acknowledge alarm={alarm} />}
    </article>
  );
}
