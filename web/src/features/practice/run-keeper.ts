/**
 * Keeps the one practice run of this page, its worker and its clock. It never asks the worker a second question before
 * the first is answered: a slow phone then runs slower, and stays smooth.
 */
import type { PracticeAct } from '../../../../simulator/practice/scenarios/practice-scenario.ts';
import { createStore } from '../../data/store.ts';
import type { Question, Reply } from './practice-messages.ts';
import { hoursToMorning, newRun, type Pace, type Run, type RunEvent, stepRun } from './run-state.ts';

export const practiceRun = createStore<Run | null>(null);

const tickMs = 500;

let worker: Worker | undefined;
let waiting: Question[] = [];
let clock: ReturnType<typeof setTimeout> | undefined;

export function startRun(scenarioId: string, seed: number): void {
  const pace = practiceRun.get()?.pace;
  endRun();
  const started = new Worker(new URL('./practice.worker.ts', import.meta.url), { type: 'module' });
  worker = started;
  started.onmessage = ({ data }: MessageEvent<Reply>) => {
    if (worker === started) hear(data);
  };
  started.onerror = (event) => {
    if (worker === started) move({ kind: 'broke', fault: event.message || null });
  };
  practiceRun.set(newRun(scenarioId, seed, pace));
  ask({ kind: 'open', scenarioId, seed });
}

export function endRun(): void {
  worker?.terminate();
  worker = undefined;
  waiting = [];
  clearTimeout(clock);
  practiceRun.set(null);
}

export function doAct(act: PracticeAct): void {
  ask({ kind: 'act', act });
}

export function acknowledgeAlarm(alarmId: string): void {
  ask({ kind: 'acknowledge', alarmId });
}

export function letRun(): void {
  move({ kind: 'let-run' });
  flow();
}

export function hold(): void {
  clearTimeout(clock);
  // What is still waiting may only be the clock's own; acts are never dropped.
  waiting = waiting.filter(({ kind }) => kind !== 'advance');
  move({ kind: 'hold' });
}

export function setPace(pace: Pace): void {
  move({ kind: 'pace', pace });
}

export function skipHours(hours: number): void {
  hold();
  ask({ kind: 'advance', hours });
}

export function skipToMorning(): void {
  const atMs = practiceRun.get()?.frame?.atMs;
  if (atMs !== undefined) skipHours(hoursToMorning(atMs));
}

function move(event: RunEvent): void {
  const run = practiceRun.get();
  if (run) practiceRun.set(stepRun(run, event));
}

function ask(question: Question): void {
  if (practiceRun.get()?.busy) {
    waiting.push(question);
    return;
  }
  move({ kind: 'asked' });
  worker?.postMessage(question);
}

function hear(reply: Reply): void {
  if ('fault' in reply) {
    waiting = [];
    move({ kind: 'broke', fault: reply.fault });
    return;
  }
  move({ kind: 'answered', answered: reply.answered });
  const next = waiting.shift();
  if (next) ask(next);
  else flow();
}

/** The next stretch of time, a tick after the last one came back. */
function flow(): void {
  clearTimeout(clock);
  clock = setTimeout(() => {
    const run = practiceRun.get();
    if (run?.flowing && !run.busy) ask({ kind: 'advance', hours: (run.pace * tickMs) / 1000 });
  }, tickMs);
}
