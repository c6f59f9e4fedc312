/** What a batch was warned of, who did what about it, and how it ended. */
import { isSilenced } from '../../../../core/alarms/standing.ts';
import type { BatchRecordSheet } from '../../../../shared/contracts/records.ts';
import { type Message, message } from '../../../../shared/messages/message.ts';
import { type Paper, whenMessage } from './paper.ts';

type Alarm = BatchRecordSheet['alarms'][number];
type Step = Alarm['steps'][number];

export function drawAlarms({ sheet, say, record: { alarms } }: Paper): void {
  sheet.heading(say(message('record.heading.alarms')));
  if (alarms.length === 0) {
    sheet.paragraph(say(message('record.no-alarms')));
    return;
  }
  const rows = alarms.map((alarm) => [
    say(whenMessage(alarm.since)),
    say(whatMessage(alarm)),
    [alarm.seen, ...[...notedBy(alarm), ...actsOf(alarm)].map(say)].join('; '),
    say(endMessage(alarm)),
  ]);
  sheet.table(
    [
      { heading: say(message('record.column.raised')), share: 3 },
      { heading: say(message('record.column.what')), share: 3 },
      { heading: say(message('record.column.seen')), share: 5 },
      { heading: say(message('record.column.ended')), share: 3 },
    ],
    rows,
  );
}

function whatMessage({ kind, position, severity }: Alarm): Message {
  return message('record.alarm', {
    conditionPart: message(`condition.${kind}.name`),
    isPlaced: position !== null,
    position: position ?? 'other',
    severity,
  });
}

function notedBy({ noted }: Alarm): Message[] {
  if (!noted) return [];
  const { at, by } = noted;
  return [message('record.noted', { isNamed: by !== null, byName: by ?? '', notedWhenMs: Date.parse(at) })];
}

function actsOf({ steps }: Alarm): Message[] {
  return steps.flatMap(({ by, arrow }) =>
    by === null ? [] : [message('record.step', { step: actOf(arrow), byName: by })],
  );
}

/** By the arrow that an alarm took. */
function actOf(arrow: Step['arrow']) {
  if (arrow.startsWith('acknowledged')) return 'acknowledged';
  if (arrow.startsWith('returned-to-service')) return 'restored';
  if (arrow.startsWith('unshelved')) return 'unshelved';
  return arrow === 'shelved' ? 'shelved' : arrow === 'taken-out-of-service' ? 'retired' : 'other';
}

/** A shelf hides nothing here, and what has passed no longer stands, acknowledged or not. */
function endMessage(alarm: Alarm): Message {
  if (alarm.stands) {
    const state = alarm.state === 'shelved' ? 'shelved' : 'retired';
    return message('record.alarm.stands', { state: isSilenced(alarm) ? state : 'other' });
  }
  const end = alarm.steps.findLast(({ to }) => to === 'normal' || to === 'returned-unacknowledged');
  const endPart = end === undefined ? message('record.alarm.passed') : whenMessage(end.at);
  return alarm.state === 'normal'
    ? endPart
    : message('record.alarm.ended-but', { endPart, isShelved: alarm.state === 'shelved' });
}
