/** The shapes in which a pile is spoken of. */
import type { Position } from '../../shared/names.ts';
import type { AlarmState, WarningKind } from '../../shared/warning.ts';
import type { Assessment } from '../session/assessment.ts';
import type { Finding } from '../warnings/finding.ts';

export type Units = 'C' | 'F';
type Tone = 'calm' | 'watch' | 'act' | 'danger';

export interface StandingAlarm {
  readonly kind: WarningKind;
  readonly position: Position | null;
  readonly state: AlarmState;
  /** What it is about holds now, notified of or not (core/alarms/standing.ts). */
  readonly stands: boolean;
  /** Set when another warning explains it. */
  readonly heldBackBy?: string | null;
  /** What it asks for, as its own line has it; absent where nobody keeps that. */
  readonly todo?: string;
}

export interface Saying {
  readonly condition: string;
  readonly next: string;
  readonly tone: Tone;
}

export interface AlarmFacts {
  readonly assessment: Assessment;
  /** A temperature in the reader's unit, whole degrees. */
  readonly temp: (tempC: number) => string;
  /** A difference of temperatures in the reader's unit. */
  readonly steps: (deltaK: number) => string;
  /** Findings that are present now, by kind. */
  readonly present: ReadonlyMap<WarningKind, Finding>;
  /** What the hazard that stands asked for last; null where none stands. */
  readonly hazardTodo: string | null;
}
