import type { AlarmSummary } from '../../../../shared/contracts/piles.ts';
import { textNow } from '../../data/text-now.ts';
import { nearTime, type Reader } from '../../ui/format/local-time.ts';
import { stateName, warningTitle } from '../../ui/format/words.ts';
import { groupAlarms } from './alarm-order.ts';

/** For a choice by `select`. */
export function severityOf({ severity }: Pick<AlarmSummary, 'severity'>) {
  return severity === 'danger' ? 'other' : severity;
}

/** @example stateWords(alarm, nowMs, reader) // => "shelved until 18:00" */
export function stateWords({ state, shelvedUntil }: AlarmSummary, nowMs: number, reader: Reader): string {
  return stateName(state, shelvedUntil === null ? undefined : nearTime(Date.parse(shelvedUntil), nowMs, reader));
}

/**
 * What stands at a pile though nobody is notified of it.
 * @example silencedSentence(pile.alarms, nowMs, reader) // => "Drying, shelved until 18:00."
 */
export function silencedSentence(alarms: readonly AlarmSummary[], nowMs: number, reader: Reader): string | undefined {
  const silenced = groupAlarms(alarms).silenced.map((alarm) =>
    textNow('page-words.silenced', {
      warningText: warningTitle(alarm.kind, alarm.position),
      stateText: stateWords(alarm, nowMs, reader),
    }),
  );
  return silenced.length === 0 ? undefined : silenced.join(' ');
}
