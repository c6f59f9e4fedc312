/** The delays of one finding, by how far it is past its limit; what a limit's own error is. */
import type { Delays } from '../../shared/conditions/condition.ts';
import { conditionOf, forEachKind } from '../../shared/conditions/kinds.ts';
import { msPerMinute } from '../../shared/units.ts';
import type { WarningKind } from '../../shared/warning.ts';

/** How far a value lies from its limit: well past it, past it, or so near that the probe's own error hides on which side. */
export type Nearness = 'clear' | 'past' | 'at';

/** What the probe's own error hides must be seen for so long [ms]; our own proposal. */
export const atLimitMs = 30 * msPerMinute;

/** The delays of one finding: the clearer it is, the sooner it is raised; all are cleared alike. */
export function delaysOf(finding: {
  readonly kind: WarningKind;
  readonly nearness?: Nearness;
  readonly isLastWord?: boolean;
}): Delays {
  const { kind, nearness, isLastWord } = finding;
  if (nearness === undefined) return conditionOf(kind).delays;
  return delays[isLastWord ? 'clear' : nearness][kind];
}

const delays: Record<Nearness, Readonly<Record<WarningKind, Delays>>> = {
  clear: raisedAfter(0),
  past: forEachKind((condition) => condition.delays),
  at: raisedAfter(atLimitMs),
};

function raisedAfter(onDelayMs: number): Readonly<Record<WarningKind, Delays>> {
  return forEachKind(({ delays: { offDelayMs } }) => ({ onDelayMs, offDelayMs }));
}

/** What the maker of a common one-wire chip vouches for, ± [K] (data sheet, -10 to 85 °C). */
export const chipErrorK = 0.5;
/** Deadband of temperature limits: both sides of that error [K]. */
export const temperatureDeadbandK = 2 * chipErrorK;
