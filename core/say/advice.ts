/**
 * What one standing alarm asks for, read beside the others that stand. Pages, messages and files all take it from here, so that
 * nobody reads two orders that exclude each other.
 */
import { type Message, message, paragraph } from '../../shared/messages/message.ts';
import type { Position } from '../../shared/names.ts';
import type { WarningKind } from '../../shared/warning.ts';
import { graverOf } from '../alarms/precedence.ts';
import { easedTodo } from './eased-todo.ts';
import { shortClause } from './phrases.ts';

export interface AdvisedAlarm {
  readonly kind: WarningKind;
  readonly position: Position | null;
  /** See core/alarms/standing.ts. */
  readonly stands: boolean;
  /** It stands, and what it is about is seen no longer: it waits to be sure. */
  readonly eases: boolean;
  readonly todo: Message;
  readonly byMs: number | null;
  readonly caution: Message | null;
}

export interface Advice<A> {
  readonly todo: Message;
  readonly byMs: number | null;
  readonly caution: Message | null;
  /** The graver alarm whose advice this is; null when it is its own. */
  readonly from: A | null;
}

/** @param alarms Those of the same pile, itself included or not. */
export function adviceOf<A extends AdvisedAlarm>(alarm: AdvisedAlarm, alarms: readonly A[]): Advice<A> {
  const graver = graverOf(alarm, alarms);
  if (graver === undefined) return { ...ownAdvice(alarm), from: null };
  const { todo, ...rest } = ownAdvice(graver);
  const follow = message('alarm.follow', { shortPart: shortClause(graver.kind, graver.position) });
  return { ...rest, todo: paragraph(follow, todo), from: graver };
}

function ownAdvice({ kind, eases, todo, byMs, caution }: AdvisedAlarm): Omit<Advice<never>, 'from'> {
  return eases ? { todo: easedTodo(kind), byMs: null, caution } : { todo, byMs, caution };
}
