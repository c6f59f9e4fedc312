/** The shapes in which a pile is spoken of. */
import type { Message, Temperature } from '../../shared/messages/message.ts';
import type { Position } from '../../shared/names.ts';
import type { AlarmState, WarningKind } from '../../shared/warning.ts';
import type { Assessment } from '../session/assessment.ts';
import type { Finding } from '../warnings/finding.ts';

export type Tone = 'calm' | 'watch' | 'act' | 'danger';

export interface StandingAlarm {
  readonly kind: WarningKind;
  readonly position: Position | null;
  readonly state: AlarmState;
  /** What it is about holds now, notified of or not (core/alarms/standing.ts). */
  readonly stands: boolean;
  /** Set when another warning explains it. */
  readonly suppressedBy?: string | null;
  /** What it asks for, as its own line has it; absent where nobody keeps that. */
  readonly todo?: Message;
}

export interface Saying {
  readonly condition: Message;
  readonly next: Message;
  readonly tone: Tone;
}

export interface AlarmFacts {
  readonly assessment: Assessment;
  /** A temperature as it is said of a pile: in whole degrees, save close to the limit. */
  readonly temp: (tempC: number) => Temperature;
  /** Findings that are present now, by kind. */
  readonly present: ReadonlyMap<WarningKind, Finding>;
  /** What the hazard that stands asked for last; null where none stands. */
  readonly hazardTodo: Message | null;
}
