import type { AlarmStepRecord } from '../../shared/alarm-record.ts';
import type { PileEvent } from '../../shared/contracts/published.ts';
import type { AlarmState } from '../../shared/warning.ts';

type AlarmEventName = Extract<PileEvent, { alarm: unknown }>['event'];

/** What a step of an alarm is to programs; undefined where it is nothing to them, as a shelf is. */
export function alarmEventOf({ from, to }: Pick<AlarmStepRecord, 'from' | 'to'>): AlarmEventName | undefined {
  if (to === 'unacknowledged') return 'alarm-raised';
  if (to === 'acknowledged') return from === 'unacknowledged' ? 'alarm-acknowledged' : undefined;
  const isOver = (state: AlarmState) => state === 'returned-unacknowledged' || state === 'normal';
  if (isOver(to) && !isOver(from)) return 'alarm-cleared';
  return from === 'returned-unacknowledged' && to === 'normal' ? 'alarm-acknowledged' : undefined;
}
