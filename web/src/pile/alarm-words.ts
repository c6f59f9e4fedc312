import type { AlarmSummary } from '../../../shared/api/piles.ts';
import { nearTime, type Reader } from '../format/local-time.ts';
import { alarmStateNames } from '../format/words.ts';

/** @example stateWords(alarm, nowMs, reader) // => "shelved until 18:00" */
export function stateWords({ state, shelvedUntil }: AlarmSummary, nowMs: number, reader: Reader): string {
  const until = shelvedUntil === null ? '' : ` until ${nearTime(Date.parse(shelvedUntil), nowMs, reader)}`;
  return `${alarmStateNames[state]}${until}`;
}
