/**
 * Where a practice run stands on the page, and how each event moves it. It never lets time flow while a new warning has
 * not been seen, or while the worker is still busy.
 */
import type { AlarmSummary } from '../../../../shared/contracts/piles.ts';
import type { Message } from '../../../../shared/messages/message.ts';
import type { Debrief } from '../../../../simulator/practice/debrief.ts';
import type { PracticeAct } from '../../../../simulator/practice/scenarios/practice-scenario.ts';
import type { Answered } from './practice-messages.ts';
import type { Frame } from './practice-session.ts';

/** Hours of the pile to a second of the clock. */
const paces = [1, 4] as const;
export type Pace = (typeof paces)[number];

interface ActView {
  /** Null when it was not done. */
  readonly act: PracticeAct | null;
  readonly found: Message | undefined;
  readonly caution: Message | undefined;
}

export interface Run {
  readonly scenarioId: string;
  readonly seed: number;
  /** arriving: the pile is being laid. over: the debrief is here. failed: the worker broke off. */
  readonly stage: 'arriving' | 'tending' | 'over' | 'failed';
  readonly flowing: boolean;
  readonly pace: Pace;
  /** A question is with the worker. */
  readonly busy: boolean;
  readonly frame: Frame | null;
  /** The answer to the last act, until time goes on. */
  readonly answer: ActView | null;
  /** The warning that stopped the clock, until time goes on. */
  readonly stoppedBy: AlarmSummary | null;
  readonly debrief: Debrief | null;
  /** In the words of the program; null where it has none. */
  readonly fault: string | null;
}

export type RunEvent =
  | { readonly kind: 'asked' }
  | { readonly kind: 'answered'; readonly answered: Answered }
  | { readonly kind: 'broke'; readonly fault: string | null }
  | { readonly kind: 'let-run' }
  | { readonly kind: 'hold' }
  | { readonly kind: 'pace'; readonly pace: Pace };

export function newRun(scenarioId: string, seed: number, pace: Pace = 1): Run {
  return {
    scenarioId,
    seed,
    stage: 'arriving',
    flowing: false,
    pace,
    busy: false,
    frame: null,
    answer: null,
    stoppedBy: null,
    debrief: null,
    fault: null,
  };
}

export function stepRun(run: Run, event: RunEvent): Run {
  switch (event.kind) {
    case 'asked':
      return { ...run, busy: true };
    case 'answered':
      return takeAnswer({ ...run, busy: false }, event.answered);
    case 'broke':
      return { ...run, busy: false, stage: 'failed', flowing: false, fault: event.fault };
    case 'let-run':
      return run.stage === 'tending' ? { ...run, flowing: true, answer: null, stoppedBy: null } : run;
    case 'hold':
      return { ...run, flowing: false };
    case 'pace':
      return { ...run, pace: event.pace };
  }
}

function takeAnswer(run: Run, { frame, raised = [], answer, debrief }: Answered): Run {
  const stoppedBy = raised.at(-1) ?? null;
  const isOver = debrief !== undefined;
  return {
    ...run,
    frame,
    stage: isOver ? 'over' : 'tending',
    flowing: run.flowing && !isOver && stoppedBy === null,
    debrief: debrief ?? null,
    // Something newer takes the place of what was said before; time alone does not while the clock is held.
    answer: answer ? actView(answer) : stoppedBy ? null : run.answer,
    stoppedBy: stoppedBy ?? (answer ? null : run.stoppedBy),
  };
}

function actView({ act, found, caution, done }: NonNullable<Answered['answer']>): ActView {
  return { act: done ? act : null, found, caution };
}

/** Hours until the next seven in the morning. */
export function hoursToMorning(atMs: number): number {
  const hourOfDay = (atMs / 3_600_000) % 24;
  const wait = (7 - hourOfDay + 24) % 24;
  return wait < 0.5 ? wait + 24 : wait;
}
