/**
 * One practice run: the hidden pile, its probes, the judge that hears them, a diary. It never puts anything of the
 * hidden truth into a frame.
 */
import { fillRecipe } from '../../../../core/session/fill-recipe.ts';
import type { AlarmSummary, PileDetail } from '../../../../shared/contracts/piles.ts';
import type { SeriesAnswer } from '../../../../shared/contracts/series.ts';
import type { Debrief } from '../../../../simulator/practice/debrief.ts';
import { type ActAnswer, createPractice } from '../../../../simulator/practice/practice.ts';
import type {
  PracticeAct,
  PracticeReading,
  PracticeScenario,
} from '../../../../simulator/practice/scenarios/practice-scenario.ts';
import type { PileSeen } from './act-offers.ts';
import { isMarked } from './act-words.ts';
import type { DiaryEntry } from './diary.ts';
import { laidRecipe } from './laid-recipe.ts';
import { createJudge } from './practice-judge.ts';
import { practicePile } from './practice-pile.ts';
import { practiceSeries, reportEveryMs } from './practice-series.ts';

export interface Frame {
  readonly atMs: number;
  readonly startedAtMs: number;
  readonly afterH: number;
  readonly ended: boolean;
  readonly seen: PileSeen;
  readonly pile: PileDetail;
  readonly series: SeriesAnswer;
  readonly diary: readonly DiaryEntry[];
}

export interface Advance {
  readonly frame: Frame;
  /** Warnings that were raised meanwhile; the last of them stopped the clock. */
  readonly raised: readonly AlarmSummary[];
}

export interface Session {
  frame(): Frame;
  /** Lets time pass, about so many hours, in whole reports of the probes; stops at the first warning that is raised. */
  advance(hours: number): Advance;
  act(act: PracticeAct): { readonly frame: Frame; readonly answer: ActAnswer };
  acknowledge(alarmId: string): Frame;
  debrief(): Debrief;
}

const chartPoints = 240;
const reportEveryH = reportEveryMs / 3_600_000;

/** What hands changed beside the pile. */
type Around = Pick<PileSeen, 'shed' | 'inShade' | 'fanOff'>;

function aroundAfter(around: Around, { kind }: PracticeAct): Around {
  if (kind === 'close-shed') return { ...around, shed: 'closed' };
  if (kind === 'open-shed') return { ...around, shed: 'open' };
  if (kind === 'shade') return { ...around, inShade: true };
  return kind === 'fan-off' ? { ...around, fanOff: true } : around;
}

// biome-ignore lint/complexity/noExcessiveLinesPerFunction: one state machine, the practice and its judge step by step together.
export function openSession(scenario: PracticeScenario, seed: number): Session {
  const practice = createPractice(scenario, seed);
  const { startedAtMs, limits } = practice;
  const judge = createJudge({
    stage: scenario.stage,
    startedAtMs,
    limits,
    ...fillRecipe(scenario.stage, laidRecipe(scenario), limits),
  });
  const readings: PracticeReading[] = [];
  const diary: DiaryEntry[] = [];
  let around: Around = { shed: scenario.recipe.shed === 'closed' ? 'closed' : 'open', inShade: false, fanOff: false };

  function hear(heard: readonly PracticeReading[], nowMs: number): AlarmSummary[] {
    readings.push(...heard);
    const raised = judge.hear(heard, nowMs);
    for (const alarm of raised) diary.push({ atMs: nowMs, kind: 'warning', alarm });
    return raised.filter(({ suppressedBy }) => suppressedBy === null);
  }

  /** What was said while nobody was there is judged in its own time, as the server would have. */
  function hearEarlier(): void {
    for (const round of byInstant(practice.earlier)) hear(round, round[0]?.atMs ?? startedAtMs);
    diary.push({ atMs: practice.view().atMs, kind: 'away', hours: scenario.awayUntilH });
  }

  function frame(): Frame {
    const { atMs, afterH, ended, depthM, cover } = practice.view();
    const assessment = judge.assessment(atMs);
    return {
      atMs,
      startedAtMs,
      afterH,
      ended,
      seen: { depthM, cover, ...around },
      pile: practicePile({ scenario, startedAtMs, assessment, alarms: judge.alarms(), diary }),
      series: practiceSeries(
        readings,
        judge.band(),
        startedAtMs,
        Math.max(atMs, startedAtMs + 12 * 3_600_000),
        chartPoints,
        assessment.forecast,
      ),
      diary: diary.slice(),
    };
  }

  if (practice.earlier.length > 0) hearEarlier();
  else {
    // A first report, so that the page has numbers from the start.
    const { view, readings: first } = practice.advance(reportEveryH);
    hear(first, view.atMs);
  }

  return {
    frame,
    advance(hours) {
      const raised: AlarmSummary[] = [];
      const reports = Math.max(1, Math.round(hours / reportEveryH));
      for (let i = 0; i < reports && raised.length === 0 && !practice.view().ended; i++) {
        const { view, readings: heard } = practice.advance(reportEveryH);
        raised.push(...hear(heard, view.atMs));
      }
      return { frame: frame(), raised };
    },
    act(act) {
      const answer = practice.act(act);
      if (answer.done) {
        around = aroundAfter(around, act);
        diary.push({ atMs: answer.view.atMs, kind: 'act', act, found: answer.found });
        if (answer.feel) judge.squeezed(answer.feel, answer.view.atMs);
        if (act.kind === 'look-and-smell') judge.judged(answer.view.atMs);
        if (isMarked(act.kind)) judge.acted(practice.acts(), answer.view.atMs);
      }
      return { frame: frame(), answer };
    },
    acknowledge(alarmId) {
      judge.acknowledge(alarmId, practice.view().atMs);
      return frame();
    },
    debrief: () => practice.debrief(),
  };
}

/** Readings of the same instant together. */
function byInstant(readings: readonly PracticeReading[]): PracticeReading[][] {
  const rounds: PracticeReading[][] = [];
  for (const reading of readings) {
    const round = rounds.at(-1);
    if (round?.[0]?.atMs === reading.atMs) round.push(reading);
    else rounds.push([reading]);
  }
  return rounds;
}
