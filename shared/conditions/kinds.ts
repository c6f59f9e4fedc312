/** What the kinds of condition are, derived from their declarations. */
import type { Condition } from './condition.ts';
import { conditions } from './conditions.ts';

type Declared = (typeof conditions)[number];

export type ConditionKind = Declared['kind'];
export type ProbeKind = Extract<Declared, { about: 'probe' }>['kind'];
/** Bad signs that a person noted with hand, nose or eyes. */
export type HandKind = Extract<Declared, { about: 'hand' }>['kind'];

/** One condition, with what it yields to among the kinds there are. */
interface DeclaredCondition extends Condition {
  readonly kind: ConditionKind;
  readonly yieldsTo: readonly ConditionKind[];
}

const declared: readonly DeclaredCondition[] = conditions;

/** Gravest first. */
export const conditionKinds: readonly ConditionKind[] = declared.map(({ kind }) => kind);

const byKind = Object.fromEntries(declared.map((condition) => [condition.kind, condition])) as Readonly<
  Record<ConditionKind, DeclaredCondition>
>;

/** Gravest first. */
export const handKinds: readonly HandKind[] = conditionKinds.filter(isHandKind);

export function conditionOf(kind: ConditionKind): DeclaredCondition {
  return byKind[kind];
}

/** One value for each kind. @example forEachKind(({ delays }) => delays) */
export function forEachKind<T>(make: (condition: DeclaredCondition) => T): Readonly<Record<ConditionKind, T>> {
  return Object.fromEntries(declared.map((condition) => [condition.kind, make(condition)])) as Record<ConditionKind, T>;
}

export function isConditionKind(text: string | undefined): text is ConditionKind {
  return text !== undefined && Object.hasOwn(byKind, text);
}

export function isProbeKind(kind: ConditionKind): kind is ProbeKind {
  return byKind[kind].about === 'probe';
}

export function isHandKind(kind: ConditionKind): kind is HandKind {
  return byKind[kind].about === 'hand';
}
