/**
 * Whether a step of an alarm is something to tell people. It never decides who is notified (see who.ts), or tells what a
 * person has just done themselves.
 */
import type { NotifyReason } from '../../shared/notifications.ts';
import type { AlarmState } from '../../shared/warning.ts';

export interface AlarmStepTaken {
  readonly from: AlarmState;
  readonly to: AlarmState;
  readonly arrow: string;
}

/**
 * @param suppressed Another warning explains this one, and is notified instead.
 * @example newsOf({ from: 'normal', to: 'unacknowledged', arrow: 'raised' }, false) // => "first-raise"
 */
export function newsOf({ from, to, arrow }: AlarmStepTaken, suppressed: boolean): NotifyReason {
  // The batch is over: whoever ended it knows.
  if (arrow === 'batch-finished') return 'nothing-new';
  if (to === 'unacknowledged') {
    if (suppressed) return 'nothing-new';
    switch (from) {
      case 'normal':
      case 'returned-unacknowledged':
        return 'first-raise';
      // A step without a change of state is a rise in severity; so is one that asks for a person again.
      case 'unacknowledged':
      case 'acknowledged':
        return 'got-worse';
      case 'shelved':
      case 'out-of-service':
        if (arrow === 'got-worse') return 'got-worse';
        return arrow === 'shelf-ended-still-present' ? 'reminder-due' : 'nothing-new';
    }
  }
  const stood = from === 'unacknowledged' || from === 'acknowledged' || from === 'shelved';
  const over = to === 'returned-unacknowledged' || to === 'normal';
  return stood && over && arrow !== 'unshelved-clear' ? 'cleared' : 'nothing-new';
}

export interface LastNotified {
  /** When this person was last notified of it [epoch ms]. */
  readonly lastAtMs: number;
}

/** Whether it is time to say it again to one person. */
export function reminderOf(
  notified: LastNotified,
  alarm: { readonly state: AlarmState; readonly suppressed: boolean },
  everyMin: number | null,
  nowMs: number,
): NotifyReason {
  if (everyMin === null || alarm.suppressed || alarm.state !== 'unacknowledged') return 'nothing-new';
  return nowMs - notified.lastAtMs >= everyMin * 60_000 ? 'reminder-due' : 'nothing-new';
}
