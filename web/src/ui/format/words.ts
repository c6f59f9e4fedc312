/** The names that kinds, states and places carry on every page, in the language that is read. */
import { conditionTexts } from '../../../../shared/messages/made/en/condition.ts';
import type { Position } from '../../../../shared/names.ts';
import type { AlarmState, WarningKind } from '../../../../shared/warning.ts';
import { textNow } from '../../data/text-now.ts';

export function warningWords(kind: WarningKind): string {
  return conditionTexts[`condition.${kind}.name`];
}

/**
 * A warning's name with its place: which probe it is of, or where heat was seen.
 * @example warningTitle('probe-silent', 'core') // => "Probe silent, core"
 */
export function warningTitle(kind: WarningKind, position: Position | null): string {
  const warningText = warningWords(kind);
  if (position === null) return warningText;
  return textNow('page-words.warning', { warningText, position: position === 'air' ? 'other' : position });
}

/** @param untilText When a shelved one is to come back. */
export function stateName(state: AlarmState, untilText?: string): string {
  return textNow('page-words.state', {
    state: state === 'returned-unacknowledged' ? 'returned' : state === 'out-of-service' ? 'other' : state,
    hasEnd: untilText !== undefined,
    untilText: untilText ?? '',
  });
}

export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** Within a sentence. @example lowered('Judged good') // => "judged good" */
export function lowered(text: string): string {
  return text.charAt(0).toLowerCase() + text.slice(1);
}
