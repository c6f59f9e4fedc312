/**
 * Which warning comes first, and whose advice is followed where two stand at once and ask for opposite things. A new kind is
 * placed by `warningKinds` and by its line in `yieldsTo`, which refuses to compile without one.
 */
import type { Position } from '../../shared/names.ts';
import { type Evidence, handKinds, type WarningKind, warningKinds } from '../../shared/warning.ts';

/**
 * While one of these stands, its advice takes the place of the kind's own. Everything yields to the self-heating hazard: from
 * its third step on nobody may even touch the heap. Beside a pile that is or will be too hot nothing may be heaped or covered.
 */
export const yieldsTo: Record<WarningKind, readonly WarningKind[]> = {
  'self-heating': [],
  overheating: ['self-heating'],
  'heat-doubted': ['self-heating'],
  // What is opened, mixed or watered before mould is out of it spreads the mould.
  'wrong-growth': ['self-heating', 'overheating'],
  'bad-smell': ['self-heating', 'wrong-growth'],
  'hand-wet': ['self-heating', 'wrong-growth'],
  'hand-dry': ['self-heating', 'overheating', 'wrong-growth'],
  'probe-silent': ['self-heating'],
  'probe-stuck': ['self-heating'],
  'probe-out': ['self-heating'],
  'overheating-soon': ['self-heating', 'overheating', 'wrong-growth'],
  'heat-damage': ['self-heating', 'overheating'],
  // A hand in the pile knows more of its water than the balance does.
  drying: ['self-heating', 'wrong-growth', 'bad-smell', 'hand-wet', 'hand-dry'],
  waterlogged: ['self-heating', 'wrong-growth', 'hand-wet', 'hand-dry'],
  stalling: ['self-heating', 'overheating', 'heat-doubted', ...handKinds, 'overheating-soon'],
  chilled: ['self-heating', 'overheating', 'heat-doubted', ...handKinds, 'overheating-soon'],
  uneven: ['self-heating', 'wrong-growth'],
};

interface Placed {
  readonly kind: WarningKind;
  readonly position: Position | null;
}

/**
 * Place in the one order of gravity: the lower, the graver. A probe counts for as much as the core it measures; what goes wrong
 * with another one hides little, and comes last.
 *
 * @example gravityOf({ kind: 'self-heating', position: null }) // => 0
 */
export function gravityOf({ kind, position }: Placed): number {
  const place = warningKinds.indexOf(kind);
  return isProbeKind(kind) && position !== 'core' ? warningKinds.length + place : place;
}

export function isProbeKind(kind: WarningKind): boolean {
  return kind.startsWith('probe-');
}

/** For sorting, the gravest first. */
export function byGravity(one: Placed, other: Placed): number {
  return gravityOf(one) - gravityOf(other);
}

/** The gravest of the standing alarms that this one yields to, whether or not anybody is notified of either. */
export function graverOf<A extends Placed & { readonly stands: boolean }>(
  { kind }: Placed,
  alarms: readonly A[],
): A | undefined {
  return alarms.filter((alarm) => alarm.stands && yieldsTo[kind].includes(alarm.kind)).sort(byGravity)[0];
}

/**
 * The kind that holds a warning back, so that nobody is notified of it. What is seen may be explained by any other. What cannot
 * be judged for want of readings is held back by a graver one alone: the loss of its probe must not silence a fire alarm.
 */
export function holderOf(finding: {
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
