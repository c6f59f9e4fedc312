/** The hidden truth beside what the probes said, and what each act did. */
import type { TimedAct } from '../farm/farm.ts';
import { actOn } from '../model/acts.ts';
import type { Weather } from '../model/air.ts';
import type { Pile } from '../model/pile.ts';
import { airAtPile } from '../model/shelter.ts';
import { runPile } from '../model/step-pile.ts';
import { pileAct } from './pile-act.ts';
import { type TruthRow, truthRow } from './record.ts';
import type { PracticeAct, PracticeReading } from './scenarios/practice-scenario.ts';
import type { Score } from './score.ts';

/** The run as it went, and the same run without one act, at the same hour. */
interface Comparison {
  readonly went: TruthRow;
  readonly without: TruthRow;
}

/** What one act brought about. */
export interface ActEffect {
  readonly afterH: number;
  readonly act: PracticeAct;
  /** Twelve hours later, or at the end when that comes first. */
  readonly soon: Comparison;
  readonly atEnd: Comparison;
  /** In words. */
  readonly did: string;
}

export interface Debrief {
  readonly score: Score;
  readonly lesson: string;
  /** Hour by hour, layers from the top down. */
  readonly truth: readonly TruthRow[];
  readonly readings: readonly PracticeReading[];
  readonly acts: readonly ActEffect[];
  readonly example: readonly { readonly afterH: number; readonly act: PracticeAct }[];
}

/** An act, and the pile just before it. */
export interface DoneAct {
  readonly afterH: number;
  readonly act: PracticeAct;
  readonly before: Pile;
}

export interface EffectsInput {
  readonly done: readonly DoneAct[];
  readonly rows: readonly TruthRow[];
  readonly weather: Weather;
  readonly startedAtMs: number;
  readonly readyAtStartKg: number;
  readonly happenings: readonly TimedAct[];
}

const soonH = 12;
const hourMs = 3_600_000;

/** Each act left out in turn, everything else as it was: the same pile and weather go the same way. */
export function effectsOf(input: EffectsInput): ActEffect[] {
  const { done, rows } = input;
  const last = rows[rows.length - 1];
  return done.flatMap(({ afterH, act, before }, i): ActEffect[] => {
    if (pileAct(act) === undefined || last === undefined || last.afterH <= afterH) return [];
    const went = rows.find((row) => row.afterH >= Math.min(afterH + soonH, last.afterH)) ?? last;
    const pile = structuredClone(before);
    const later = done.slice(i + 1);
    const soon = { went, without: runWithout(pile, later, went, input) };
    const atEnd = { went: last, without: runWithout(pile, later, last, input) };
    return [{ afterH, act, soon, atEnd, did: inWords(afterH, soon, atEnd) }];
  });
}

/** Runs a pile on to the hour of `until`, with all later acts and happenings. */
function runWithout(pile: Pile, later: readonly DoneAct[], until: TruthRow, input: EffectsInput): TruthRow {
  const { weather, startedAtMs, happenings, readyAtStartKg } = input;
  const acts = [
    ...later.map(({ act, before }) => ({ atMs: before.atMs, act: pileAct(act) })),
    ...happenings.map(({ afterH, act }) => ({ atMs: startedAtMs + afterH * hourMs, act })),
  ];
  const fromMs = pile.atMs;
  for (const { atMs, act } of acts.sort((a, b) => a.atMs - b.atMs)) {
    if (act === undefined || atMs < fromMs || atMs >= until.atMs) continue;
    runPile(pile, weather, atMs);
    actOn(pile, act, airAtPile(pile, weather(pile.atMs), 1));
  }
  runPile(pile, weather, until.atMs);
  return truthRow(pile, weather(pile.atMs), until.afterH, readyAtStartKg);
}

/** A difference worth showing, and its words: up and down are what follows its size. */
interface Telling {
  readonly of: (row: TruthRow) => number;
  readonly worth: number;
  readonly up: (size: string) => string;
  readonly down: (size: string) => string;
}

const tellSoon: readonly Telling[] = [
  { of: (row) => row.coreC, worth: 1, up: (n) => `the core ${n} °C warmer`, down: (n) => `the core ${n} °C cooler` },
  {
    of: (row) => 100 * row.moistureFrac,
    worth: 1,
    up: (n) => `the pile ${n} ${n === '1' ? 'point' : 'points'} wetter`,
    down: (n) => `the pile ${n} ${n === '1' ? 'point' : 'points'} drier`,
  },
  {
    of: (row) => 100 * row.leastOxygenFrac,
    worth: 2,
    up: () => 'its worst layer better aired',
    down: () => 'its worst layer worse aired',
  },
];

const tellAtEnd: readonly Telling[] = [
  {
    of: (row) => 100 * row.moistureFrac,
    worth: 1,
    up: (n) => `${n} ${n === '1' ? 'point' : 'points'} more water`,
    down: (n) => `${n} ${n === '1' ? 'point' : 'points'} less water`,
  },
  {
    of: (row) => 100 * row.aliveFrac,
    worth: 2,
    up: (n) => `${n} % more of the culture alive`,
    down: (n) => `${n} % less of the culture alive`,
  },
  {
    of: (row) => 100 * row.workFrac,
    worth: 3,
    up: (n) => `${n} % more of the work done`,
    down: (n) => `${n} % less of the work done`,
  },
];

function inWords(afterH: number, soon: Comparison, atEnd: Comparison): string {
  const first = differences(soon, tellSoon);
  const second = differences(atEnd, tellAtEnd);
  const sentences = [
    first === '' ? '' : `${soon.went.afterH - afterH} h later it left ${first}.`,
    second === '' ? '' : `At the end it left ${second}.`,
  ].filter((text) => text !== '');
  return sentences.length === 0 ? 'It made hardly any difference.' : sentences.join(' ');
}

function differences({ went, without }: Comparison, tellings: readonly Telling[]): string {
  return tellings
    .flatMap(({ of, worth, up, down }) => {
      const by = of(went) - of(without);
      if (Math.abs(by) < worth) return [];
      const size = Math.abs(by).toFixed(0);
      return [by > 0 ? up(size) : down(size)];
    })
    .join(', ');
}
