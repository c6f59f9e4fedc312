/**
 * web/pile/alarm-order.ts: which warnings stand in front, and which are explained by another.
 */
import type { AlarmSummary } from '../../../shared/api/piles.ts';
import { severities } from '../../../shared/warning.ts';

export interface AlarmGroups {
  /** To be seen to, the gravest first. */
  readonly standing: readonly AlarmSummary[];
  /** Over before anybody acknowledged it. */
  readonly returned: readonly AlarmSummary[];
  /** Held back by one of the others. */
  readonly heldBack: readonly AlarmSummary[];
  /** Put aside by a person, or out of service. */
  readonly aside: readonly AlarmSummary[];
}

export function groupAlarms(alarms: readonly AlarmSummary[]): AlarmGroups {
  const open = alarms.filter((alarm) => alarm.state !== 'normal').sort(byGravity);
  const isAside = (alarm: AlarmSummary) => alarm.state === 'shelved' || alarm.state === 'out-of-service';
  const isReturned = (alarm: AlarmSummary) => alarm.state === 'returned-unacknowledged';
  const isNow = (alarm: AlarmSummary) => !isAside(alarm) && !isReturned(alarm);
  return {
    standing: open.filter((alarm) => isNow(alarm) && alarm.heldBackBy === null),
    returned: open.filter(isReturned),
    heldBack: open.filter((alarm) => isNow(alarm) && alarm.heldBackBy !== null),
    aside: open.filter(isAside),
  };
}

function byGravity(one: AlarmSummary, other: AlarmSummary): number {
  const gravity = (alarm: AlarmSummary) =>
    severities.indexOf(alarm.severity) + (alarm.state === 'unacknowledged' ? 0.5 : 0);
  return gravity(other) - gravity(one) || one.since.localeCompare(other.since);
}
