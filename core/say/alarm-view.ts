/** Alarms as pages, messages and files show them. */
import type { AlarmRecord } from '../../shared/alarm-record.ts';
import type { AlarmSummary } from '../../shared/contracts/piles.ts';
import { toInstant } from '../../shared/contracts/time.ts';
import type { Message } from '../../shared/messages/message.ts';
import { isEasing, isStanding } from '../alarms/standing.ts';
import type { OpenAlarm } from '../session/alarm-registry.ts';
import { type AdvisedAlarm, adviceOf } from './advice.ts';

/** As the API gives it, before it has words. */
export type AlarmView = Omit<AlarmSummary, 'seen' | 'todo' | 'caution' | 'messages'> & {
  readonly messages: { readonly seen: Message; readonly todo: Message; readonly caution: Message | null };
};

/** All that are open of one pile: what one asks for depends on the others. */
export function alarmSummaries(open: Iterable<OpenAlarm>): AlarmView[] {
  const alarms = [...open];
  const records = alarms.map(({ record }) => record);
  return alarms.map((alarm) => alarmSummary(alarm, records));
}

/** @param pileAlarms Open alarms of the same pile: while it is open itself it may yield to one of them. */
export function alarmSummary({ record, suppressedBy }: OpenAlarm, pileAlarms: readonly AlarmRecord[]): AlarmView {
  const { words } = record;
  const { shelvedUntilMs } = record.machine;
  const advised = advisedAlarm(record);
  const others = record.closedAtMs === null ? pileAlarms.map(advisedAlarm) : [];
  const { byMs, from, todo, caution } = adviceOf(advised, others);
  return {
    id: record.id,
    kind: record.kind,
    severity: record.severity,
    state: record.state,
    since: toInstant(record.raisedAtMs),
    position: record.position,
    messages: { seen: words.seen, todo, caution },
    by: byMs === null ? null : toInstant(byMs),
    stands: advised.stands,
    ...(words.noted && { noted: { at: toInstant(words.noted.atMs), by: words.noted.by } }),
    suppressedBy,
    yieldsTo: from?.id ?? null,
    shelvedUntil: shelvedUntilMs === null ? null : toInstant(shelvedUntilMs),
  };
}

/** An alarm as it is kept, as far as what it asks for depends on the others of its pile. */
export function advisedAlarm(record: AlarmRecord): AdvisedAlarm & { readonly id: string } {
  const { todo, byMs, caution } = record.words;
  const { machine } = record;
  const { id, kind, position } = record;
  return { id, kind, position, stands: isStanding(machine), eases: isEasing(machine), todo, byMs, caution };
}
