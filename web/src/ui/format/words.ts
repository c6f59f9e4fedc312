/**
 * The names that kinds, states and places carry on the page.
 *
 * Alarm states are the words of ANSI/ISA-18.2 and IEC 62682; the rest are words of the trade.
 */

import { forEachKind, isProbeKind } from '../../../../shared/conditions/kinds.ts';
import type { ActKind } from '../../../../shared/contracts/domain/batch.ts';
import { conditionTexts } from '../../../../shared/messages/made/en/condition.ts';
import type { Position } from '../../../../shared/names.ts';
import type { AlarmState, WarningKind } from '../../../../shared/warning.ts';

export const warningNames = forEachKind(({ kind }) => conditionTexts[`condition.${kind}.name`]);

export const alarmStateNames: Record<AlarmState, string> = {
  normal: 'normal',
  unacknowledged: 'unacknowledged',
  acknowledged: 'acknowledged',
  'returned-unacknowledged': 'ended, not yet acknowledged',
  shelved: 'shelved',
  'out-of-service': 'out of service',
};

const positionNames: Record<Position, string> = {
  core: 'core',
  top: 'top',
  base: 'base',
  edge: 'edge',
  air: 'air',
};

/**
 * A warning's name with its place, as it is read aloud: a probe is named by its place, a heat says where it was seen.
 * @example warningTitle('probe-silent', 'core') // => "Core probe silent"
 */
export function warningTitle(kind: WarningKind, position: Position | null): string {
  const name = warningNames[kind];
  if (position === null) return name;
  return isProbeKind(kind)
    ? `${capital(positionNames[position])} ${lowered(name)}`
    : `${name}, ${positionNames[position]}`;
}

export const actNames: Record<ActKind, string> = {
  turned: 'Turned',
  watered: 'Watered',
  spread: 'Spread thinner',
  heaped: 'Heaped up',
  covered: 'Covered',
  uncovered: 'Uncovered',
  moved: 'Moved',
  rained: 'Rain',
  note: 'Note',
};

export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** Within a sentence. @example lowered('Judged good') // => "judged good" */
export function lowered(text: string): string {
  return text.charAt(0).toLowerCase() + text.slice(1);
}
