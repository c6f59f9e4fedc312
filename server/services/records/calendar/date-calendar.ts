/** Turns, checks and likely readiness of the batches that lie there now, as a calendar. */
import { type PlannedDate, planDates } from '../../../../core/plan/dates.ts';
import type { Reader } from '../../../../shared/messages/format.ts';
import { type Message, message } from '../../../../shared/messages/message.ts';
import { plainSpaces, render } from '../../../../shared/messages/render.ts';
import { stageLimits } from '../../../../shared/stage.ts';
import type { BatchRecord } from '../../../../shared/store/journal.ts';
import { msPerDay, msPerMinute } from '../../../../shared/units.ts';
import { icalLines, icalText, icalTime } from './ical-text.ts';

export interface CalendarBatch {
  readonly batch: BatchRecord;
  readonly name: Message;
  readonly pileName: string;
  readonly siteName: string;
  /** A warning that stands and speaks against every date, with what it asks for instead. */
  readonly calledOff?: { readonly by: CallingOff; readonly todo: Message } | undefined;
}

/** Nobody is called to turn or squeeze a pile that may catch fire, or of which mould would be spread. */
export const callingOff = ['self-heating', 'wrong-growth'] as const;
type CallingOff = (typeof callingOff)[number];
const calledOffSays = {
  'self-heating': 'calendar.called-off',
  'wrong-growth': 'calendar.called-off.growth',
} as const satisfies Record<CallingOff, string>;

/** How long each takes, and how long before its reminder sounds [min]. */
const lengthMin: Record<PlannedDate['kind'], number> = { turn: 30, check: 15, ready: 0 };
const remindMin: Record<PlannedDate['kind'], number> = { turn: 60, check: 0, ready: 0 };

/** @param reader Whose calendar it is; `nowMs` is now. */
export function dateCalendar(batches: readonly CalendarBatch[], address: string, reader: Reader): string {
  return icalLines([
    'BEGIN:VCALENDAR',
    'VERSION:2.0',
    'PRODID:-//Branhearth//Dates of batches//EN',
    'CALSCALE:GREGORIAN',
    'NAME:Branhearth', // RFC 7986
    'X-WR-CALNAME:Branhearth', // for readers older than RFC 7986
    'REFRESH-INTERVAL;VALUE=DURATION:PT6H', // RFC 7986
    ...batches.flatMap((one) => events(one, address, reader)),
    'END:VCALENDAR',
  ]);
}

function events(one: CalendarBatch, address: string, reader: Reader): string[] {
  const { batch } = one;
  const { lengthMinH, lengthMaxH } = { ...stageLimits[batch.stage], ...batch.limits };
  const ownLength = batch.limits.lengthMinH !== undefined || batch.limits.lengthMaxH !== undefined;
  const dates = planDates({
    startMs: batch.startedAtMs,
    stage: batch.stage,
    ...(ownLength && { lengthH: { minH: lengthMinH, maxH: Math.max(lengthMinH, lengthMaxH) } }),
  });
  return dates.flatMap((date) => event(one, date, address, reader));
}

function event(one: CalendarBatch, date: PlannedDate, address: string, reader: Reader): string[] {
  const { batch, name, pileName, siteName } = one;
  const { kind, atMs, untilMs, says, origin } = date;
  const day = Math.round((atMs - batch.startedAtMs) / msPerDay);
  // A likely window may open and close at one time: an end must lie after its start.
  const endMs = Math.max(untilMs ?? 0, atMs + Math.max(1, lengthMin[kind]) * msPerMinute);
  // What is past is a record.
  const calledOff = endMs > reader.nowMs ? one.calledOff : undefined;
  const say = (said: Message) => plainSpaces(render(said, reader));
  const summary = say(message(calledOff ? calledOffSays[calledOff.by] : `calendar.${kind}`, { pileName }));
  return [
    'BEGIN:VEVENT',
    `UID:${batch.id}-${kind}-${kind === 'ready' ? 0 : day}@branhearth`,
    `DTSTAMP:${icalTime(batch.startedAtMs)}`,
    `DTSTART:${icalTime(atMs)}`,
    `DTEND:${icalTime(endMs)}`,
    `SUMMARY:${icalText(summary)}`,
    `DESCRIPTION:${icalText(calledOff ? `${say(calledOff.todo)}\n${say(name)}` : `${say(says)}\n${say(name)}\n${say(origin)}`)}`,
    `LOCATION:${icalText(`${pileName}, ${siteName}`)}`,
    `URL:${address}/piles/${encodeURIComponent(batch.pileId)}`,
    'TRANSP:TRANSPARENT',
    'BEGIN:VALARM',
    'ACTION:DISPLAY',
    `DESCRIPTION:${icalText(summary)}`,
    `TRIGGER:${remindMin[kind] === 0 ? 'PT0S' : `-PT${remindMin[kind]}M`}`,
    'END:VALARM',
    'END:VEVENT',
  ];
}
