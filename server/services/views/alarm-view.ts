/** An alarm with every step it took. */
import { alarmSummary } from '../../../core/say/alarm-view.ts';
import type { AlarmRecord, AlarmStepRecord } from '../../../shared/alarm-record.ts';
import type { AlarmDetail } from '../../../shared/contracts/alarms.ts';
import { toInstant } from '../../../shared/contracts/time.ts';
import { worded } from '../../../shared/messages/in-words.ts';

export function alarmDetail(
  record: AlarmRecord,
  steps: readonly AlarmStepRecord[],
  pileAlarms: readonly AlarmRecord[],
): AlarmDetail {
  return {
    ...worded(alarmSummary({ record, suppressedBy: null }, pileAlarms)),
    pileId: record.pileId,
    steps: steps.map(({ atMs, from, to, arrow, by, note }) => ({ at: toInstant(atMs), from, to, arrow, by, note })),
  };
}
