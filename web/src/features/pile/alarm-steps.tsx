/** Every step a warning took, with when and by whom. */
import { useState } from 'preact/hooks';
import type { AlarmDetail } from '../../../../shared/contracts/alarms.ts';
import type { AlarmSummary } from '../../../../shared/contracts/piles.ts';
import { useReader, useServerNow } from '../../data/live/use-installation.ts';
import { getAlarm } from '../../data/routes.ts';
import { useQuery } from '../../data/use-query.ts';
import { ageWords } from '../../ui/format/age.ts';
import { nearTime } from '../../ui/format/local-time.ts';
import { stateName } from '../../ui/format/words.ts';
import { Refusal } from '../../ui/parts/forms.tsx';
import { SentList } from '../notifications/sent-list.tsx';
import { usePileWords } from './use-pile-words.ts';
import './warnings.css';

/** Every step the alarm took, on request. */
export function Steps({ alarm, site }: { readonly alarm: AlarmSummary; readonly site: string }) {
  const { text } = usePileWords();
  const [isOpen, setIsOpen] = useState(false);
  return (
    <details class="more" onToggle={(event) => setIsOpen(event.currentTarget.open)}>
      <summary>{text('page-pile.steps.title')}</summary>
      {isOpen && <StepList alarm={alarm} site={site} />}
      {isOpen && <h4>{text('page-pile.steps.notified')}</h4>}
      {isOpen && <SentList alarmId={alarm.id} state={alarm.state} site={site} />}
    </details>
  );
}

export function StepList({ alarm, site }: { readonly alarm: AlarmSummary; readonly site: string }) {
  const { text } = usePileWords();
  const reader = useReader(site);
  const nowMs = useServerNow();
  const { value, error } = useQuery(`${alarm.id} ${alarm.state}`, () => getAlarm(alarm.id));
  if (error !== undefined) return <Refusal error={error} />;
  if (!value) return <p class="quiet">{text('page-pile.fetching')}</p>;
  return (
    <ol class="steps-taken">
      {value.steps.map((step) => (
        <li key={`${step.at} ${step.arrow}`}>
          <time dateTime={step.at} title={ageWords(nowMs - Date.parse(step.at))}>
            {nearTime(Date.parse(step.at), nowMs, reader)}
          </time>{' '}
          {text('page-pile.steps.one', stepOf(step))}
        </li>
      ))}
    </ol>
  );
}

/** Arrows of `core/alarms/alarm.ts`; whether it was still there tells the state that it led to. */
const arrowWords = {
  raised: 'raised',
  'raised-again': 'raisedAgain',
  'got-worse': 'gotWorse',
  returned: 'returned',
  cleared: 'cleared',
  acknowledged: 'acknowledged',
  'acknowledged-after-return': 'acknowledged',
  shelved: 'shelved',
  'shelf-ended-still-present': 'shelfEnded',
  'shelf-ended-clear': 'shelfEnded',
  'unshelved-still-present': 'unshelved',
  'unshelved-clear': 'unshelved',
  'taken-out-of-service': 'retired',
  'returned-to-service-still-present': 'restored',
  'returned-to-service-clear': 'restored',
} as const;

function stepOf({ from, to, arrow, by, note }: AlarmDetail['steps'][number]) {
  return {
    fromText: stateName(from),
    toText: stateName(to),
    arrow: arrow in arrowWords ? arrowWords[arrow as keyof typeof arrowWords] : 'other',
    isNamed: Boolean(by),
    byName: by ?? '',
    hasNote: Boolean(note),
    noteText: note ?? '',
  } as const;
}
