import { type Message, message } from '../../shared/messages/message.ts';
import { msPerHour } from '../../shared/units.ts';
import { actOn, type PileAct } from '../model/acts.ts';
import type { Air, Weather } from '../model/air.ts';
import { climateWeather } from '../model/climate.ts';
import { createPile, type Pile } from '../model/pile.ts';
import { createRandom, seedOf } from '../model/random.ts';
import { airAtPile } from '../model/shelter.ts';
import { longestStepS, stepPile } from '../model/step-pile.ts';
import { createProbe, measure, type Probe } from '../probes/probe.ts';
import { truthAt } from '../probes/truth.ts';
import { readyFoodKg, type TruthRow, truthRow } from './record.ts';
import type { PracticeReading, PracticeScenario } from './scenarios/practice-scenario.ts';

const everyMs = 600_000;

/** The pile of a practice run as time passes: what is really so in it each hour, and what its probes say. */
export class PracticeRun {
  readonly scenario: PracticeScenario;
  readonly startedAtMs: number;
  readonly pile: Pile;
  readonly weather: Weather;
  readonly readyAtStartKg: number;
  /** One for each whole hour. */
  readonly rows: TruthRow[] = [];
  readonly readings: PracticeReading[] = [];
  readonly #probes: Probe[];
  readonly #toHappen: PracticeScenario['happenings'][number][];
  #sensedAtMs = Number.NEGATIVE_INFINITY;
  #endedAtH: number | undefined;

  constructor(scenario: PracticeScenario, seed: number, startedAtMs: number) {
    this.scenario = scenario;
    this.startedAtMs = startedAtMs;
    this.weather = climateWeather(scenario.climate, seed ^ seedOf(scenario.id));
    this.pile = createPile({ ...scenario.recipe, startMs: startedAtMs });
    this.readyAtStartKg = readyFoodKg(this.pile);
    this.#probes = scenario.probes.map((setup) =>
      createProbe({ ...setup, everyS: everyMs / 1000, also: [] }, createRandom(seed ^ seedOf(setup.name))),
    );
    this.#toHappen = [...scenario.happenings].sort((a, b) => a.afterH - b.afterH);
    this.#note();
  }

  /** Since the pile was laid [h]. */
  get afterH(): number {
    return (this.pile.atMs - this.startedAtMs) / msPerHour;
  }

  get ended(): boolean {
    return this.#endedAtH !== undefined || this.afterH >= this.scenario.hours;
  }

  /** When it was finished by hand [h]. */
  get endedAtH(): number | undefined {
    return this.#endedAtH;
  }

  finish(): void {
    this.#endedAtH = Math.round(this.afterH);
  }

  /** Lets time pass up to a moment, in whole steps and the rest. */
  runUntil(untilMs: number): void {
    const { pile } = this;
    while (pile.atMs < untilMs) {
      this.#letHappen();
      stepPile(pile, this.weather, Math.min(longestStepS, (untilMs - pile.atMs) / 1000));
      this.#sense();
      if (Math.abs(this.afterH - Math.round(this.afterH)) < 1e-9) this.#note();
    }
  }

  /** Lets hours pass, at most to the end of the run: whole steps only, so that the hours of the record stay whole. */
  runFor(hours: number): void {
    if (this.ended) return;
    const stepMs = longestStepS * 1000;
    const steps = Math.max(0, Math.round((hours * msPerHour) / stepMs));
    const endMs = this.startedAtMs + this.scenario.hours * msPerHour;
    this.runUntil(Math.min(this.pile.atMs + steps * stepMs, endMs));
  }

  act(act: PileAct): void {
    actOn(this.pile, act, airAtPile(this.pile, this.weather(this.pile.atMs), 1));
  }

  /** What is really so now. */
  truthNow(): TruthRow {
    return truthRow(this.pile, this.#outdoors(), this.afterH, this.readyAtStartKg);
  }

  /** Puts a probe back into its place. @returns What was found. */
  reseatProbe(name: string): Message {
    const at = this.#probes.findIndex(({ setup }) => setup.name === name);
    const probe = this.#probes[at];
    if (probe === undefined) return message('practice.probe.none', { probeName: name });
    const { faults, position: place } = probe.setup;
    const out = faults.some(({ kind, fromH }) => kind === 'pulled-out' && fromH <= this.afterH);
    if (!out) return message('practice.probe.sits', { place });
    const left = faults.filter(({ kind }) => kind !== 'pulled-out');
    this.#probes[at] = { ...probe, setup: { ...probe.setup, faults: left } };
    return message('practice.probe.put-back', { place });
  }

  #outdoors(): Air {
    const { pile } = this;
    const air = this.weather(pile.atMs);
    return pile.shed === 'closed' ? { ...air, tempC: pile.shedAirC } : air;
  }

  #note(): void {
    this.rows.push(truthRow(this.pile, this.#outdoors(), Math.round(this.afterH), this.readyAtStartKg));
  }

  /** What the scenario has planned for by now. */
  #letHappen(): void {
    for (let next = this.#toHappen[0]; next !== undefined && next.afterH <= this.afterH; next = this.#toHappen[0]) {
      this.#toHappen.shift();
      this.act(next.act);
    }
  }

  #sense(): void {
    const { pile } = this;
    const { atMs } = pile;
    if (atMs - this.#sensedAtMs < everyMs) return;
    this.#sensedAtMs = atMs;
    const air = this.#outdoors();
    const aside = truthAt(pile, air, 'air');
    for (const probe of this.#probes) {
      const { name, position, depthM } = probe.setup;
      const values = measure(probe, truthAt(pile, air, position, depthM), aside, atMs, this.afterH);
      if (values === undefined) continue;
      for (const quantity of ['temperature', 'humidity'] as const) {
        const value = values[quantity];
        if (value !== undefined) this.readings.push({ probe: name, position, quantity, value, atMs });
      }
    }
  }
}
