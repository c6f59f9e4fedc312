/** Which warning comes first, and whose advice is followed where two stand at once and ask for opposite things. */
import { conditionOf, isProbeKind } from '../../shared/conditions/kinds.ts';
import type { Position } from '../../shared/names.ts';
import { type Evidence, type WarningKind, warningKinds } from '../../shared/warning.ts';

interface KindAt {
  readonly kind: WarningKind;
  readonly position: Position | null;
}

/**
 * Rank in the one order of gravity: the lower, the graver. A probe counts for as much as the core it measures; what goes wrong
 * with another one hides little, and comes last.
 *
 * @example gravityOf({ kind: 'self-heating', position: null }) // => 0
 */
export function gravityOf({ kind, position }: KindAt): number {
  const rank = warningKinds.indexOf(kind);
  return isProbeKind(kind) && position !== 'core' ? warningKinds.length + rank : rank;
}

/** For sorting, the gravest first. */
export function byGravity(one: KindAt, other: KindAt): number {
  return gravityOf(one) - gravityOf(other);
}

/**
 * The alarm whose advice is followed instead of this one's, whether or not anybody is notified of either: the gravest standing
 * one that it yields to, or whatever that one yields to in its turn.
 */
export function graverOf<A extends KindAt & { readonly stands: boolean }>(
  { kind }: KindAt,
  alarms: readonly A[],
): A | undefined {
  const { yieldsTo } = conditionOf(kind);
  const graver = alarms.filter((alarm) => alarm.stands && yieldsTo.includes(alarm.kind)).sort(byGravity)[0];
  // What a kind yields to is always graver than it, so this comes to an end.
  return graver && (graverOf(graver, alarms) ?? graver);
}

/**
 * The kind that suppresses a warning, so that nobody is notified of it. What is seen may be explained by any other. What cannot
 * be judged for want of readings is suppressed by a graver one alone: the loss of its probe must not silence a fire alarm.
 */
export function suppressorOf(finding: {
  readonly kind: WarningKind;
  readonly evidence: Evidence;
  readonly explainedBy: WarningKind | null;
}): WarningKind | null {
  const { kind, evidence, explainedBy } = finding;
  if (explainedBy === null || evidence === 'present') return explainedBy;
  return warningKinds.indexOf(explainedBy) < warningKinds.indexOf(kind) ? explainedBy : null;
}

/** Whether the hazard of self-heating stands: then nobody is asked to open, water or turn the pile for anything else. */
export function hazardStands(alarms: readonly { readonly kind: WarningKind; readonly stands: boolean }[]): boolean {
  return alarms.some(({ kind, stands }) => stands && kind === 'self-heating');
}
