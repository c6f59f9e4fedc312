/** Which warnings stand in front, and which are explained by another. */
import { byGravity } from '../../../../core/alarms/precedence.ts';
import { isSilenced, speaks } from '../../../../core/alarms/standing.ts';
import type { AlarmSummary } from '../../../../shared/contracts/piles.ts';
import { severities } from '../../../../shared/warning.ts';

export interface AlarmGroups {
  /** To be seen to, the gravest first. */
  readonly standing: readonly AlarmSummary[];
  /** Over before anybody acknowledged it. */
  readonly returned: readonly AlarmSummary[];
  /** Suppressed by one of the others. */
  readonly suppressed: readonly AlarmSummary[];
  /** Standing, and put aside by a person or out of service: true all the same. */
  readonly silenced: readonly AlarmSummary[];
  /** Put aside, and what it was about is over. */
  readonly aside: readonly AlarmSummary[];
}

export function groupAlarms(alarms: readonly AlarmSummary[]): AlarmGroups {
  const open = alarms.filter((alarm) => alarm.state !== 'normal').sort(graverFirst);
  return {
    standing: open.filter((alarm) => speaks(alarm) && !isSilenced(alarm)),
    returned: open.filter((alarm) => !alarm.stands && !isSilenced(alarm)),
    suppressed: open.filter((alarm) => alarm.stands && alarm.suppressedBy !== null && !isSilenced(alarm)),
    silenced: open.filter((alarm) => alarm.stands && isSilenced(alarm)),
    aside: open.filter((alarm) => !alarm.stands && isSilenced(alarm)),
  };
}

/** Of two of one kind the more severe, then what nobody has acknowledged, then the older. */
function graverFirst(one: AlarmSummary, other: AlarmSummary): number {
  const press = (alarm: AlarmSummary) =>
    severities.indexOf(alarm.severity) + (alarm.state === 'unacknowledged' ? 0.5 : 0);
  return byGravity(one, other) || press(other) - press(one) || one.since.localeCompare(other.since);
}
