/**
 * A pile tended by hand in fast time. Runs in a page's worker. It never shows what is really so before the debrief.
 */

import type { Act } from '../../shared/contracts/domain/batch.ts';
import type { SqueezeFeel } from '../../shared/squeeze.ts';
import { type StageLimits, stageLimits } from '../../shared/stage.ts';
import { actOn } from '../model/acts.ts';
import type { Air } from '../model/air.ts';
import { climateWeather } from '../model/climate.ts';
import { createPile, type Pile, pileDepthM } from '../model/pile.ts';
import { createRandom, seedOf } from '../model/random.ts';
import { airAtPile } from '../model/shelter.ts';
import { longestStepS, stepPile } from '../model/step-pile.ts';
import { createProbe, measure, type Probe } from '../probes/probe.ts';
import { truthAt } from '../probes/truth.ts';
import { actCautions } from './cautions.ts';
import { type Debrief, type DoneAct, effectsOf } from './debrief.ts';
import { lookedAndSmelled, squeezed, squeezedWords } from './hand-check.ts';
import { journalEntry } from './journal-entry.ts';
import { pileAct } from './pile-act.ts';
import { readyFoodKg, type TruthRow, truthRow } from './record.ts';
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
  readonly view: PracticeView;
  /** What hand and nose found, or why nothing was done. */
  readonly found: string | undefined;
  /** How a squeezed handful felt. */
  readonly feel?: SqueezeFeel | undefined;
  readonly caution: string | undefined;
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

const everyMs = 600_000;
const hourMs = 3_600_000;
/** Early June, so that days are long; a practice run has no date of its own. */
const defaultStartMs = Date.UTC(2031, 5, 2, 8);

export function createPractice(scenario: PracticeScenario, seed: number, startedAtMs = defaultStartMs): Practice {
  const weather = climateWeather(scenario.climate, seed ^ seedOf(scenario.id));
  const pile = createPile({ ...scenario.recipe, startMs: startedAtMs });
  const readyAtStartKg = readyFoodKg(pile);
  const limits = stageLimits[scenario.stage];
  const probes = scenario.probes.map(
    (setup): Probe =>
      createProbe({ ...setup, everyS: everyMs / 1000, also: [] }, createRandom(seed ^ seedOf(setup.name))),
  );
  const rows: TruthRow[] = [];
  const readings: PracticeReading[] = [];
  const done: DoneAct[] = [];
  const journal: Act[] = [];
  const toHappen = [...scenario.happenings].sort((a, b) => a.afterH - b.afterH);
  let endedAtH: number | undefined;
  let sensedAtMs = Number.NEGATIVE_INFINITY;

  const afterH = () => (pile.atMs - startedAtMs) / hourMs;
  const ended = () => endedAtH !== undefined || afterH() >= scenario.hours;
  const outdoors = (): Air => {
    const air = weather(pile.atMs);
    return pile.shed === 'closed' ? { ...air, tempC: pile.shedAirC } : air;
  };
  const view = (): PracticeView => ({
    afterH: afterH(),
    atMs: pile.atMs,
    ended: ended(),
    depthM: pileDepthM(pile),
    cover: pile.cover,
  });
  const note = () => rows.push(truthRow(pile, outdoors(), Math.round(afterH()), readyAtStartKg));

  function sense(): void {
    if (pile.atMs - sensedAtMs < everyMs) return;
    sensedAtMs = pile.atMs;
    const air = outdoors();
    const aside = truthAt(pile, air, 'air');
    for (const probe of probes) {
      const { name, position, depthM } = probe.setup;
      const values = measure(probe, truthAt(pile, air, position, depthM), aside, pile.atMs, afterH());
      if (values === undefined) continue;
      for (const quantity of ['temperature', 'humidity'] as const) {
        const value = values[quantity];
        if (value !== undefined) readings.push({ probe: name, position, quantity, value, atMs: pile.atMs });
      }
    }
  }

  function run(untilMs: number): void {
    while (pile.atMs < untilMs) {
      for (let next = toHappen[0]; next !== undefined && next.afterH <= afterH(); next = toHappen[0]) {
        toHappen.shift();
        actOn(pile, next.act, airAtPile(pile, weather(pile.atMs), 1));
      }
      stepPile(pile, weather, Math.min(longestStepS, (untilMs - pile.atMs) / 1000));
      sense();
      if (Math.abs(afterH() - Math.round(afterH())) < 1e-9) note();
    }
  }

  function act(wanted: PracticeAct): ActAnswer {
    const answer = (found: string | undefined, was: boolean, feel?: SqueezeFeel): ActAnswer => ({
      view: view(),
      found,
      feel,
      caution: wanted.kind in actCautions ? actCautions[wanted.kind as keyof typeof actCautions] : undefined,
      done: was,
    });
    if (ended()) return answer('The run is over.', false);
    if (!scenario.tools.includes(wanted.kind)) return answer('There is nothing here to do that with.', false);
    const before = structuredClone(pile);
    const feel = wanted.kind === 'squeeze' ? squeezed(truthNow()) : undefined;
    const found = feel === undefined ? carryOut(wanted) : squeezedWords(feel);
    done.push({ afterH: Math.round(afterH()), act: wanted, before });
    const entry = journalEntry(wanted, pile.atMs);
    if (entry !== undefined) journal.push(entry);
    return answer(found, true, feel);
  }

  const truthNow = () => truthRow(pile, outdoors(), afterH(), readyAtStartKg);

  function carryOut(wanted: PracticeAct): string | undefined {
    if (wanted.kind === 'finish') endedAtH = Math.round(afterH());
    if (wanted.kind === 'look-and-smell') return lookedAndSmelled(truthNow());
    if (wanted.kind === 'reseat-probe') return reseat(wanted.probe);
    const onPile = pileAct(wanted);
    if (onPile !== undefined) actOn(pile, onPile, airAtPile(pile, weather(pile.atMs), 1));
    return undefined;
  }

  function reseat(name: string): string {
    const place = probes.findIndex(({ setup }) => setup.name === name);
    const probe = probes[place];
    if (probe === undefined) return `There is no probe ${name}.`;
    const out = probe.setup.faults.some(({ kind, fromH }) => kind === 'pulled-out' && fromH <= afterH());
    if (!out) return `Probe ${name} sits where it should.`;
    const faults = probe.setup.faults.filter(({ kind }) => kind !== 'pulled-out');
    probes[place] = { ...probe, setup: { ...probe.setup, faults } };
    return `Probe ${name} lay beside the pile; it is back in its place.`;
  }

  note();
  run(startedAtMs + scenario.awayUntilH * hourMs);
  const earlier = readings.slice();
  return {
    scenario,
    limits,
    startedAtMs,
    earlier,
    view,
    acts: () => journal.slice(),
    advance(hours) {
      const from = readings.length;
      // Whole steps only, so that the hours of the record stay whole.
      const steps = Math.max(0, Math.round((hours * hourMs) / (longestStepS * 1000)));
      const untilMs = Math.min(pile.atMs + steps * longestStepS * 1000, startedAtMs + scenario.hours * hourMs);
      if (!ended()) run(untilMs);
      return { view: view(), readings: readings.slice(from) };
    },
    act,
    debrief: () => ({
      score: scoreOf({ rows, limits, weights: scenario.weights, goal: scenario.goal, endedAtH }),
      lesson: scenario.lesson,
      truth: rows.slice(),
      readings: readings.slice(),
      acts: effectsOf({ done, rows, weather, startedAtMs, readyAtStartKg, happenings: scenario.happenings }),
      example: scenario.example,
    }),
  };
}
