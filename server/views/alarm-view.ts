/**
 * server/views/alarm-view.ts: alarm records as the API shows them.
 */

import type { AlarmMachine } from '../../core/alarm/alarm.ts';
import type { AlarmDetail } from '../../shared/api/alarms.ts';
import type { AlarmSummary } from '../../shared/api/piles.ts';
import { toInstant } from '../../shared/api/time.ts';
import type { AlarmRecord, AlarmStepRecord } from '../../shared/store/journal.ts';
import type { AlarmWords } from '../watch/alarm-board.ts';

export function alarmSummary(record: AlarmRecord, heldBackBy: string | null): AlarmSummary {
  const words = JSON.parse(record.words) as AlarmWords;
  const { shelvedUntilMs } = JSON.parse(record.machine) as AlarmMachine;
  return {
    id: record.id,
    kind: record.kind,
    severity: record.severity,
    state: record.state,
    since: toInstant(record.raisedAtMs),
    position: record.position,
    seen: words.seen,
    todo: words.todo,
    by: words.byMs === null ? null : toInstant(words.byMs),
    caution: words.caution,
    heldBackBy,
    shelvedUntil: shelvedUntilMs === null ? null : toInstant(shelvedUntilMs),
  };
}

export function alarmDetail(record: AlarmRecord, steps: readonly AlarmStepRecord[]): AlarmDetail {
  return {
    ...alarmSummary(record, null),
    pileId: record.pileId,
    steps: steps.map(({ atMs, from, to, arrow, by, note }) => ({ at: toInstant(atMs), from, to, arrow, by, note })),
  };
}
