/**
 * How one alarm moves between its states, by what is seen and by what a person does.
 *
 * States are the words of ANSI/ISA-18.2-2016 and IEC 62682 (from memory). Pure data, kept as JSON. It never reads a
 * clock, sends a message, decides who is notified, or lets missing evidence clear an alarm.
 */
import type { Delays } from '../../shared/conditions/condition.ts';
import type { AlarmState, Evidence, Severity } from '../../shared/warning.ts';
import { type Hold, type HoldBranch, stands, stepHold } from './hold.ts';

export interface AlarmMachine {
  readonly state: AlarmState;
  /** Time of entry into the state [epoch ms]. */
  readonly sinceMs: number;
  readonly hold: Hold;
  /** When the condition that stands was first raised; null while none stands. */
  readonly firstRaisedAtMs: number | null;
  /** The worst severity that a person has been notified of since it was raised. */
  readonly severity: Severity | null;
  /** The highest rung of the hazard ladder seen since it was raised; absent for kinds without one. */
  readonly rung?: number | undefined;
  /** Set while shelved. */
  readonly shelvedUntilMs: number | null;
}

/** Arrows between alarm states; a step that changes no state carries the name of its hold branch instead. */
type AlarmArrow =
  | 'raised'
  | 'raised-again'
  | 'got-worse'
  | 'returned'
  | 'cleared'
  | 'acknowledged'
  | 'acknowledged-after-return'
  | 'shelved'
  | 'shelf-ended-still-present'
  | 'shelf-ended-clear'
  | 'unshelved-still-present'
  | 'unshelved-clear'
  | 'taken-out-of-service'
  | 'returned-to-service-still-present'
  | 'returned-to-service-clear'
  | 'nothing-to-do';

export interface AlarmStep {
  readonly next: AlarmMachine;
  readonly arrow: AlarmArrow | HoldBranch;
}

/** The order of severities, the graver higher [-]; nothing is reckoned with them. */
const ranks: Record<Severity, number> = { notice: 0, warning: 1, urgent: 2, danger: 3 };

export function startAlarm(nowMs: number): AlarmMachine {
  return {
    state: 'normal',
    sinceMs: nowMs,
    hold: { condition: 'unknown', sinceMs: nowMs },
    firstRaisedAtMs: null,
    severity: null,
    shelvedUntilMs: null,
  };
}

/** How grave what is seen is: its severity, and within one severity its rung of the hazard ladder. */
export interface Grade {
  readonly severity: Severity;
  readonly rung?: number;
}

/** Most looks at most alarms: nothing stood, and nothing is seen. */
export function isQuiet({ state, hold, firstRaisedAtMs }: AlarmMachine, evidence: Evidence, nowMs: number): boolean {
  return (
    evidence === 'absent' &&
    hold.condition === 'clear' &&
    state === 'normal' &&
    firstRaisedAtMs === null &&
    nowMs >= hold.sinceMs
  );
}

/** One look at the evidence. With a `grade`, an acknowledged alarm that has grown worse asks for a person again. */
export function stepAlarm(
  machine: AlarmMachine,
  evidence: Evidence,
  nowMs: number,
  policy: Delays,
  grade: Grade = { severity: machine.severity ?? 'warning' },
): AlarmStep {
  if (isQuiet(machine, evidence, nowMs)) return { next: machine, arrow: 'nothing-seen' };
  const { next: hold, branch } = stepHold(machine.hold, evidence, nowMs, policy);
  const present = stands(hold.condition);
  const firstRaisedAtMs = present ? (machine.firstRaisedAtMs ?? nowMs) : null;
  // Most looks change nothing: the machine itself is then the next one.
  const seen: AlarmMachine =
    hold === machine.hold && firstRaisedAtMs === machine.firstRaisedAtMs
      ? machine
      : { ...machine, hold, firstRaisedAtMs };
  switch (machine.state) {
    case 'normal':
      return present ? enter(seen, 'unacknowledged', 'raised', nowMs, grade) : { next: seen, arrow: branch };
    case 'unacknowledged':
      if (!present) return enter(seen, 'returned-unacknowledged', 'returned', nowMs);
      // What is not seen now cannot have grown worse: a finding without evidence says how grave it would be.
      return evidence === 'present' && isWorse(seen, grade)
        ? { next: { ...seen, ...grade }, arrow: 'got-worse' }
        : { next: seen, arrow: branch };
    case 'acknowledged':
      if (!present) return enter(seen, 'normal', 'cleared', nowMs);
      return evidence === 'present' && isWorse(seen, grade)
        ? enter(seen, 'unacknowledged', 'got-worse', nowMs, grade)
        : { next: seen, arrow: branch };
    case 'returned-unacknowledged':
      return present ? enter(seen, 'unacknowledged', 'raised-again', nowMs, grade) : { next: seen, arrow: branch };
    case 'shelved':
      if (machine.shelvedUntilMs !== null && nowMs >= machine.shelvedUntilMs) {
        return reassess(seen, nowMs, 'shelf-ended-still-present', 'shelf-ended-clear');
      }
      // Put aside was what a person saw then, not what is graver.
      if (present && evidence === 'present' && seen.severity !== null && isWorse(seen, grade)) {
        return enter({ ...seen, shelvedUntilMs: null }, 'unacknowledged', 'got-worse', nowMs, grade);
      }
      return { next: seen, arrow: branch };
    case 'out-of-service':
      return { next: seen, arrow: branch };
  }
}

/** A person has seen it. */
export function acknowledgeAlarm(machine: AlarmMachine, nowMs: number): AlarmStep {
  switch (machine.state) {
    case 'unacknowledged':
      return enter(machine, 'acknowledged', 'acknowledged', nowMs);
    case 'returned-unacknowledged':
      return enter(machine, 'normal', 'acknowledged-after-return', nowMs);
    default:
      return { next: machine, arrow: 'nothing-to-do' };
  }
}

/** Quiet until an instant, by a person's choice; evidence is still followed. */
export function shelveAlarm(machine: AlarmMachine, untilMs: number, nowMs: number): AlarmStep {
  if (!(untilMs > nowMs)) {
    throw new RangeError(`Cannot shelve an alarm as untilMs must be after ${nowMs}: current value is ${untilMs}`);
  }
  if (machine.state === 'out-of-service') return { next: machine, arrow: 'nothing-to-do' };
  return enter({ ...machine, shelvedUntilMs: untilMs }, 'shelved', 'shelved', nowMs);
}

export function unshelveAlarm(machine: AlarmMachine, nowMs: number): AlarmStep {
  if (machine.state !== 'shelved') return { next: machine, arrow: 'nothing-to-do' };
  return reassess(machine, nowMs, 'unshelved-still-present', 'unshelved-clear');
}

/** No alarm until a person puts it back, for instance while a probe is being mended. */
/** A word of the standard that no page offers yet. @public */
export function takeOutOfService(machine: AlarmMachine, nowMs: number): AlarmStep {
  if (machine.state === 'out-of-service') return { next: machine, arrow: 'nothing-to-do' };
  return enter({ ...machine, shelvedUntilMs: null }, 'out-of-service', 'taken-out-of-service', nowMs);
}

/** @public */
export function returnToService(machine: AlarmMachine, nowMs: number): AlarmStep {
  if (machine.state !== 'out-of-service') return { next: machine, arrow: 'nothing-to-do' };
  return reassess(machine, nowMs, 'returned-to-service-still-present', 'returned-to-service-clear');
}

/** Whether the alarm should stand in a list of what needs a person. */
export function isOpen(machine: AlarmMachine): boolean {
  return machine.state !== 'normal';
}

function reassess(machine: AlarmMachine, nowMs: number, present: AlarmArrow, clear: AlarmArrow): AlarmStep {
  const freed = { ...machine, shelvedUntilMs: null };
  return stands(machine.hold.condition)
    ? enter(freed, 'unacknowledged', present, nowMs)
    : enter(freed, 'normal', clear, nowMs);
}

function enter(
  machine: AlarmMachine,
  state: AlarmState,
  arrow: AlarmArrow,
  nowMs: number,
  grade: Grade | null = null,
): AlarmStep {
  if (state !== 'normal') return { next: { ...machine, ...grade, state, sinceMs: nowMs }, arrow };
  const { rung: _, ...rest } = machine;
  return { next: { ...rest, state, sinceMs: nowMs, severity: null }, arrow };
}

function isWorse({ severity, rung = 0 }: AlarmMachine, now: Grade): boolean {
  if (severity === null || ranks[now.severity] > ranks[severity]) return true;
  return ranks[now.severity] === ranks[severity] && (now.rung ?? 0) > rung;
}
