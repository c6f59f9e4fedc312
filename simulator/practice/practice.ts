/**
 * A pile tended by hand in fast time. Runs in a page's worker. It never shows what is really so before the debrief.
 */

import type { Act } from '../../shared/contracts/domain/batch.ts';
import { type Message, message } from '../../shared/messages/message.ts';
import type { SqueezeFeel } from '../../shared/squeeze.ts';
import { type StageLimits, stageLimits } from '../../shared/stage.ts';
import { msPerHour } from '../../shared/units.ts';
import { type Pile, pileDepthM } from '../model/pile.ts';
import { actCautions } from './cautions.ts';
import { type Debrief, type DoneAct, effectsOf } from './debrief.ts';
import { lookedAndSmelled, squeezed, squeezedMessage } from './hand-check.ts';
import { journalEntry } from './journal-entry.ts';
import { pileAct } from './pile-act.ts';
import { PracticeRun } from './practice-run.ts';
import type { PracticeAct, PracticeReading, PracticeScenario } from './scenarios/practice-scenario.ts';
import { scoreOf } from './score.ts';

interface PracticeView {
  /** Hours since the pile was laid [h]. */
  readonly afterH: number;
  readonly atMs: number;
  readonly ended: boolean;
  readonly depthM: number;
  readonly cover: Pile['cover'];
}

export interface ActAnswer {
  readonly act: PracticeAct;
  readonly view: PracticeView;
  /** What hand and nose found, or why nothing was done. */
  readonly found: Message | undefined;
  /** How a squeezed handful felt. */
  readonly feel?: SqueezeFeel | undefined;
  readonly caution: Message | undefined;
  readonly done: boolean;
}

export interface Practice {
  readonly scenario: PracticeScenario;
  readonly limits: StageLimits;
  readonly startedAtMs: number;
  /** What the probes said while nobody was there. */
  readonly earlier: readonly PracticeReading[];
  view(): PracticeView;
  /** Acts so far, as the journal would hold them. */
  acts(): readonly Act[];
  /** Lets time pass, at most to the end of the run. @returns What the probes said meanwhile. */
  advance(hours: number): { readonly view: PracticeView; readonly readings: readonly PracticeReading[] };
  act(act: PracticeAct): ActAnswer;
  debrief(): Debrief;
}

/** Early June, so that days are long; a practice run has no date of its own. */
const defaultStartMs = Date.UTC(2031, 5, 2, 8);

export function createPractice(scenario: PracticeScenario, seed: number, startedAtMs = defaultStartMs): Practice {
  const run = new PracticeRun(scenario, seed, startedAtMs);
  const limits = stageLimits[scenario.stage];
  const done: DoneAct[] = [];
  const journal: Act[] = [];

  run.runUntil(startedAtMs + scenario.awayUntilH * msPerHour);
  return {
    scenario,
    limits,
    startedAtMs,
    earlier: run.readings.slice(),
    view: () => viewOf(run),
    acts: () => journal.slice(),
    advance(hours) {
      const from = run.readings.length;
      run.runFor(hours);
      return { view: viewOf(run), readings: run.readings.slice(from) };
    },
    act(wanted) {
      const refused = refusalOf(run, wanted);
      if (refused !== undefined) return answerTo(run, wanted, { done: false, found: refused });
      const before = structuredClone(run.pile);
      const found = carryOut(run, wanted);
      done.push({ afterH: Math.round(run.afterH), act: wanted, before });
      const entry = journalEntry(wanted, run.pile.atMs);
      if (entry !== undefined) journal.push(entry);
      return answerTo(run, wanted, { done: true, ...found });
    },
    debrief: () => debriefOf(run, limits, done),
  };
}

function viewOf(run: PracticeRun): PracticeView {
  const { pile, afterH, ended } = run;
  return { afterH, atMs: pile.atMs, ended, depthM: pileDepthM(pile), cover: pile.cover };
}

/** Why nothing is done. */
function refusalOf(run: PracticeRun, wanted: PracticeAct): Message | undefined {
  if (run.ended) return message('practice.refused.over');
  return run.scenario.tools.includes(wanted.kind) ? undefined : message('practice.refused.no-tool');
}

/** @returns What hand and nose found. */
function carryOut(run: PracticeRun, wanted: PracticeAct): Pick<ActAnswer, 'found' | 'feel'> {
  if (wanted.kind === 'squeeze') {
    const feel = squeezed(run.truthNow());
    return { found: squeezedMessage(feel), feel };
  }
  if (wanted.kind === 'finish') run.finish();
  if (wanted.kind === 'look-and-smell') return { found: lookedAndSmelled(run.truthNow()) };
  if (wanted.kind === 'reseat-probe') return { found: run.reseatProbe(wanted.probe) };
  const onPile = pileAct(wanted);
  if (onPile !== undefined) run.act(onPile);
  return { found: undefined };
}

function answerTo(
  run: PracticeRun,
  act: PracticeAct,
  { done, found, feel }: Pick<ActAnswer, 'done' | 'found' | 'feel'>,
): ActAnswer {
  const caution = act.kind in actCautions ? actCautions[act.kind as keyof typeof actCautions] : undefined;
  return { act, view: viewOf(run), found, feel, caution, done };
}

function debriefOf(run: PracticeRun, limits: StageLimits, done: readonly DoneAct[]): Debrief {
  const { scenario, rows, readings, weather, startedAtMs, readyAtStartKg, endedAtH } = run;
  const { weights, goal, happenings, lesson, example } = scenario;
  return {
    score: scoreOf({ rows, limits, weights, goal, endedAtH }),
    lesson,
    truth: rows.slice(),
    readings: readings.slice(),
    acts: effectsOf({ done, rows, weather, startedAtMs, readyAtStartKg, happenings }),
    example,
  };
}
