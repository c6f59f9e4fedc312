/** What one rule found at one moment, and how a position inside or beside the pile is seen. Temperatures in °C. */
import { type Message, message } from '../../shared/messages/message.ts';
import type { Position } from '../../shared/names.ts';
import type { PileQuantityKey } from '../../shared/quantity.ts';
import type { Evidence, Severity, WarningKind } from '../../shared/warning.ts';
import type { Grade } from '../alarms/alarm.ts';
import type { Nearness } from '../alarms/policies.ts';

/** The last of each quantity that is believed, by its key; null where it was never measured. */
export interface PositionSight extends Readonly<Record<PileQuantityKey, number | null>> {
  /** When that temperature was measured, and how often one comes; 0 while that is not known [epoch ms, ms]. */
  readonly temperatureAtMs: number | null;
  readonly everyMs: number;
  /** A newer temperature that jumped: it is believed once the next reading bears it out. */
  readonly doubted: { readonly temperatureC: number; readonly atMs: number } | null;
  /** When anything came last from there. */
  readonly atMs: number | null;
  readonly silent: boolean;
  /** Measured by hand, there being no probe that can be believed; `silent` is then that nobody measured for too long. */
  readonly byHand?: boolean;
}

export interface Finding<Kind extends WarningKind = WarningKind> {
  readonly kind: Kind;
  /** Where; null when it is about the whole pile. */
  readonly position: Position | null;
  readonly evidence: Evidence;
  readonly severity: Severity;
  /** What was seen, what to do, by when, the caution that goes with it. */
  readonly seen: Message;
  readonly todo: Message;
  readonly byMs: number | null;
  readonly caution: Message | null;
  /** The rule that was applied, with its limits, so that a page can say why. */
  readonly why: Message;
  /** The finding that explains this one and holds it back. */
  readonly explainedBy: WarningKind | null;
  /** Who noted it and when, where it rests on a person's word. */
  readonly noted?: { readonly atMs: number; readonly by: string | null };
  /** Rung of the hazard ladder reached, counted from 1; absent for kinds without one. */
  readonly rung?: number;
  /** How far past its limit; 'past' when absent. What is clear of it need not be held first: a limit chatters only near itself. */
  readonly nearness?: Nearness;
  /** Past its limit by as much as a probe may be off, with the deadband counted in: what its words go by. */
  readonly isPast?: boolean;
  /** No reading comes within the time it would be held that could take it back: it is raised at once. */
  readonly isLastWord?: boolean;
}

/** What a finding asks for that asks for nothing. */
export const nothingToDo = message('plain.nothing-to-do');

export function gradeOf({ severity, rung }: Finding): Grade {
  return rung === undefined ? { severity } : { severity, rung };
}
