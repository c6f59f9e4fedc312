/**
 * What a message says: first the sentence, then what was seen, then the caution. It never says that a pile is safe, and
 * never leaves the fire service out of a self-heating hazard.
 */
import type { Position } from '../../shared/names.ts';
import type { NoticeReason } from '../../shared/notifications.ts';
import { sentenceIn } from '../../shared/temperature.ts';
import { msPerMinute } from '../../shared/units.ts';
import type { Severity, WarningKind } from '../../shared/warning.ts';
import { atStart, clauseOf } from '../say/phrases.ts';
import { duration } from '../words/words.ts';

/** What is kept with a notice about an alarm. */
export interface NoticeSources {
  readonly kind: WarningKind;
  readonly position: Position | null;
  readonly severity: Severity;
  readonly seen: string;
  readonly todo: string;
  readonly byMs: number | null;
  readonly caution: string | null;
  readonly raisedAtMs: number;
  /** The graver kind whose advice `todo`, `byMs` and `caution` are; absent when they are its own. */
  readonly adviceFrom?: WarningKind;
  /** Who noted it and when, where it rests on a person's word. */
  readonly noted?: { readonly atMs: number; readonly by: string | null } | undefined;
}

export interface MessageReader {
  readonly timeZone: string;
  readonly unit: 'C' | 'F';
}

export interface MessageContent {
  /** At most 60 characters. */
  readonly title: string;
  /** Which pile, what, what to do, by when. */
  readonly sentence: string;
  readonly parts: readonly { readonly label: string; readonly text: string }[];
}

export interface AlarmMessageParts {
  readonly answer: NoticeReason;
  readonly facts: NoticeSources;
  readonly pileName: string;
  readonly siteName: string;
  readonly nowMs: number;
  readonly reader: MessageReader;
  /** Who could not be reached, when that is why this person is told. */
  readonly notReached?: string | undefined;
}

const fireService =
  'If you see smoke or glowing, or smell burning, call your local fire service at once and do not open the pile. ' +
  'Local codes and the fire service’s word come before anything written here.';

const stillWatch =
  'Probes see only where they sit: hot places between them may go on. Look again within the hour, and do not open the pile alone.';

export function alarmMessage(ask: AlarmMessageParts): MessageContent {
  const { answer, facts, pileName, siteName, reader } = ask;
  const clause = clauseOf(facts.kind, facts.position);
  const pile = `${pileName} at ${siteName}`;
  const over = answer === 'cleared';
  const words = (text: string) => plainSpaces(sentenceIn(reader.unit, text));
  const parts: { label: string; text: string }[] = [];
  if (!over) parts.push({ label: 'Seen', text: words(facts.seen) });
  if (!over && facts.noted) parts.push({ label: 'Noted', text: notedWords(facts.noted, ask) });
  if (!over && facts.caution !== null) parts.push({ label: 'Caution', text: words(facts.caution) });
  if (facts.kind === 'self-heating' || (!over && facts.adviceFrom === 'self-heating'))
    parts.push({ label: 'Fire', text: over ? `${stillWatch} ${fireService}` : fireService });
  return {
    title: title(pileName, `${titleStart(answer)}${over ? clause.shortOver : clause.short}`),
    sentence: words(
      over
        ? atStart(`${clause.isOver(pile)}.`)
        : [atStart(opening(ask, clause.is(pile))), facts.todo, due(ask)].filter(Boolean).join(' '),
    ),
    parts,
  };
}

function opening({ answer, facts, nowMs, notReached, reader }: AlarmMessageParts, says: string): string {
  const stood = duration(Math.max(0, nowMs - facts.raisedAtMs));
  switch (answer) {
    case 'got-worse':
      return `It has got worse: ${says}.`;
    case 'reminder-due':
      return `Still, since ${clockWords(facts.raisedAtMs, nowMs, reader.timeZone)}: ${says}, and nobody has acknowledged it.`;
    case 'handed-on':
      return `${says}. It comes to you because nobody has acknowledged it for ${stood}.`;
    case 'not-reached':
      return `${says}. It comes to you because ${notReached ?? 'another person'} could not be reached.`;
    default:
      return `${says}.`;
  }
}

function notedWords({ atMs, by }: NonNullable<NoticeSources['noted']>, { nowMs, reader }: AlarmMessageParts): string {
  const when = clockWords(atMs, nowMs, reader.timeZone);
  return by === null ? when : `by ${by}, ${when}`;
}

/** A message takes some minutes to be read; what was due a moment ago is due now. */
const overdueAfterMs = 10 * msPerMinute;

function due({ facts, nowMs, reader }: AlarmMessageParts): string {
  if (facts.byMs === null) return '';
  const lateMs = nowMs - facts.byMs;
  if (lateMs >= overdueAfterMs) return `This was due ${duration(lateMs)} ago: do it now.`;
  if (lateMs >= 0) return 'Do it now.';
  return `Do it by ${clockWords(facts.byMs, nowMs, reader.timeZone)}.`;
}

function titleStart(answer: NoticeReason): string {
  if (answer === 'got-worse') return 'worse, ';
  return answer === 'reminder-due' ? 'still ' : '';
}

const longestTitle = 60;

/** The name gives way, not what is wrong. */
export function title(name: string, what: string): string {
  const room = Math.max(8, longestTitle - what.length - 2);
  const shown = name.length > room ? `${name.slice(0, room - 1)}…` : name;
  return `${shown}: ${what}`.slice(0, longestTitle);
}

/** @example clockWords(today at 16:30 ...) // => "16:30"; another day: "Fri 2 May, 16:30" */
export function clockWords(atMs: number, nowMs: number, timeZone: string): string {
  const time = formatOf(timeZone, { hour: '2-digit', minute: '2-digit', hourCycle: 'h23' });
  const day = formatOf(timeZone, { weekday: 'short', day: 'numeric', month: 'short' });
  const clock = time.format(atMs);
  return day.format(atMs) === day.format(nowMs) ? clock : `${day.format(atMs).replace(',', '')}, ${clock}`;
}

const formats = new Map<string, Intl.DateTimeFormat>();

function formatOf(timeZone: string, options: Intl.DateTimeFormatOptions): Intl.DateTimeFormat {
  const key = `${timeZone} ${JSON.stringify(options)}`;
  const known = formats.get(key);
  if (known) return known;
  const made = new Intl.DateTimeFormat('en-GB', { ...options, timeZone });
  formats.set(key, made);
  return made;
}

/** No-break spaces are for pages; a subject line would be encoded for their sake. */
const plainSpaces = (text: string) => text.replace(/\u00a0/g, ' ');
