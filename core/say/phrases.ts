/** What is wrong with a pile, as clauses of sentences and for a title with little room. */
import { isProbeKind } from '../../shared/conditions/kinds.ts';
import { type Message, message } from '../../shared/messages/message.ts';
import type { Position } from '../../shared/names.ts';
import type { WarningKind } from '../../shared/warning.ts';

export interface PileNames {
  readonly pileName: string;
  readonly siteName: string;
}

/**
 * @param isFirst It begins the sentence.
 * @example "the core probe of Shed at Old Yard has fallen silent", "Shed at Old Yard is too hot"
 */
export function isClause(kind: WarningKind, position: Position | null, names: PileNames, isFirst: boolean): Message {
  return message(`alarm.is.${kind}`, { ...names, isFirst, place: position ?? 'other' });
}

/** @example "Shed at Old Yard is no longer too hot." */
export function overSentence(kind: WarningKind, position: Position | null, names: PileNames): Message {
  return message(`alarm.over.${kind}`, { ...names, place: position ?? 'other' });
}

/** @example "core probe silent", "too hot" */
export function shortClause(kind: WarningKind, position: Position | null): Message {
  return isProbeKind(kind)
    ? message(`alarm.short.${kind}`, { place: position ?? 'other' })
    : message(`alarm.short.${kind}`);
}

/** @example "core probe speaks again", "no longer too hot" */
export function shortOverClause(kind: WarningKind, position: Position | null): Message {
  return isProbeKind(kind)
    ? message(`alarm.short-over.${kind}`, { place: position ?? 'other' })
    : message(`alarm.short-over.${kind}`);
}
