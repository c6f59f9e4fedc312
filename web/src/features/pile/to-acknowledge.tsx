/** What waits for somebody to say that they have seen it, beside what is to be done. */
import type { AlarmSummary } from '../../../../shared/contracts/piles.ts';
import { useReader, useServerNow } from '../../data/live/use-installation.ts';
import { usePrefs } from '../../data/prefs.ts';
import { acknowledge } from '../../data/routes.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { nearTime } from '../../ui/format/local-time.ts';
import { warningTitle } from '../../ui/format/words.ts';
import { Refusal } from '../../ui/parts/forms.tsx';
import { May } from '../../ui/parts/only-for.tsx';
import { groupAlarms } from './alarm-order.ts';
import { severityOf } from './alarm-words.ts';
import { usePileWords } from './use-pile-words.ts';
import './to-acknowledge.css';

interface ToAcknowledgeProps {
  readonly alarms: readonly AlarmSummary[];
  readonly site: string;
  readonly onChange: () => Promise<unknown>;
}

export function ToAcknowledge({ alarms, site, onChange }: ToAcknowledgeProps) {
  const waiting = groupAlarms(alarms).standing.filter(({ state }) => state === 'unacknowledged');
  if (waiting.length === 0) return null;
  return (
    <ul class="to-acknowledge">
      {waiting.map((alarm) => (
        <Waiting key={alarm.id} alarm={alarm} site={site} onChange={onChange} />
      ))}
    </ul>
  );
}

function Waiting({ alarm, site, onChange }: Omit<ToAcknowledgeProps, 'alarms'> & { readonly alarm: AlarmSummary }) {
  const { name } = usePrefs();
  const nowMs = useServerNow();
  const reader = useReader(site);
  const mutation = useMutation();
  const { rich } = usePileWords(site);
  const titleText = warningTitle(alarm.kind, alarm.position);
  return (
    <li>
      <span>
        {rich('page-pile.waiting', {
          titleText,
          severity: severityOf(alarm),
          timeText: nearTime(Date.parse(alarm.since), nowMs, reader),
          link: (inner) => <a href={`#alarm-${alarm.id}`}>{inner}</a>,
        })}
      </span>
      <May to="keeper">
        <button
          type="button"
          class="primary"
          disabled={mutation.busy}
          onClick={() => mutation.run(() => acknowledge(alarm.id, name || undefined).then(onChange))}
        >
          {rich('page-pile.acknowledge.of', { titleText, unseen: (inner) => <span class="unseen">{inner}</span> })}
        </button>
      </May>
      <Refusal error={mutation.error} />
    </li>
  );
}
