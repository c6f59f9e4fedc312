/**
 * What a message about an alarm says: first the sentence, then what was seen, then the caution. It never says that a pile is safe,
 * and never leaves the fire service out of a self-heating hazard.
 */

import { overdueAfterMs } from '../../shared/age.ts';
import { type Message, message, paragraph } from '../../shared/messages/message.ts';
import type { Position } from '../../shared/names.ts';
import type { NoticeReason } from '../../shared/notifications.ts';
import type { Severity, WarningKind } from '../../shared/warning.ts';
import { isClause, overSentence, type PileNames, shortClause, shortOverClause } from '../say/phrases.ts';
import { labels, type NoticeContent, type NoticePart } from './notice-content.ts';

/** What is kept with a notice about an alarm. */
export interface NoticeSources {
  readonly kind: WarningKind;
  readonly position: Position | null;
  readonly severity: Severity;
  readonly seen: Message;
  readonly todo: Message;
  readonly byMs: number | null;
  readonly caution: Message | null;
  readonly raisedAtMs: number;
  /** The graver kind whose advice `todo`, `byMs` and `caution` are; absent when they are its own. */
  readonly adviceFrom?: WarningKind;
  /** Who noted it and when, where it rests on a person's word. */
  readonly noted?: { readonly atMs: number; readonly by: string | null } | undefined;
}

export interface AlarmMessageParts extends PileNames {
  readonly answer: NoticeReason;
  readonly facts: NoticeSources;
  readonly nowMs: number;
  /** Who could not be reached, when that is why this person is notified. */
  readonly notReached?: string | undefined;
}

const fireService = message('notice.fire-service');
const stillWatch = message('notice.still-watch');

export function alarmMessage(ask: AlarmMessageParts): NoticeContent {
  const { facts, pileName } = ask;
  const { kind, position } = facts;
  if (ask.answer === 'cleared') {
    return {
      title: { name: pileName, what: shortOverClause(kind, position) },
      sentence: overSentence(kind, position, namesOf(ask)),
      parts: kind === 'self-heating' ? [{ label: labels.fire, text: paragraph(stillWatch, fireService) }] : [],
    };
  }
  return {
    title: { name: pileName, what: titleOf(ask) },
    sentence: paragraph(opening(ask), facts.todo, due(ask)),
    parts: partsOf(facts),
  };
}

const namesOf = ({ pileName, siteName }: PileNames): PileNames => ({ pileName, siteName });

function partsOf({ kind, seen, noted, caution, adviceFrom }: NoticeSources): NoticePart[] {
  const parts: NoticePart[] = [{ label: labels.seen, text: seen }];
  if (noted) parts.push({ label: labels.noted, text: notedClause(noted) });
  if (caution !== null) parts.push({ label: labels.caution, text: caution });
  if (kind === 'self-heating' || adviceFrom === 'self-heating') parts.push({ label: labels.fire, text: fireService });
  return parts;
}

function opening(ask: AlarmMessageParts): Message {
  const { answer, facts, nowMs, notReached } = ask;
  const isPart = (isFirst: boolean) => isClause(facts.kind, facts.position, namesOf(ask), isFirst);
  switch (answer) {
    case 'got-worse':
      return message('notice.worse', { isPart: isPart(false) });
    case 'reminder-due':
      return message('notice.still', { isPart: isPart(false), raisedAtMs: facts.raisedAtMs });
    case 'handed-on':
      return message('notice.handed-on', { isPart: isPart(true), stoodMs: Math.max(0, nowMs - facts.raisedAtMs) });
    case 'not-reached':
      return message('notice.not-reached', { isPart: isPart(true), ...reachedInVain(notReached) });
    default:
      return message('notice.is', { isPart: isPart(true) });
  }
}

export const reachedInVain = (name: string | undefined) => ({ isNamed: name !== undefined, byName: name ?? '' });

function notedClause({ atMs, by }: NonNullable<NoticeSources['noted']>): Message {
  return message('notice.noted', { isNamed: by !== null, byName: by ?? '', notedAtMs: atMs });
}

const dueNow = message('notice.due-now');

function due({ facts: { byMs }, nowMs }: AlarmMessageParts): Message | null {
  if (byMs === null) return null;
  const lateMs = nowMs - byMs;
  if (lateMs >= overdueAfterMs) return message('notice.due-late', { lateMs });
  return lateMs >= 0 ? dueNow : message('notice.due-by', { dueAtMs: byMs });
}

function titleOf({ answer, facts }: AlarmMessageParts): Message {
  const shortPart = shortClause(facts.kind, facts.position);
  if (answer === 'got-worse') return message('notice.title.worse', { shortPart });
  return answer === 'reminder-due' ? message('notice.title.still', { shortPart }) : shortPart;
}
