/** The hidden truth beside what the probes said, and what each act did. */
import { type Message, message, paragraph } from '../../shared/messages/message.ts';
import { msPerHour } from '../../shared/units.ts';
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
  readonly did: Message;
}

export interface Debrief {
  readonly score: Score;
  readonly lesson: Message;
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
    return [{ afterH, act, soon, atEnd, did: didMessage(afterH, soon, atEnd) }];
  });
}

/** Runs a pile on to the hour of `until`, with all later acts and happenings. */
function runWithout(pile: Pile, later: readonly DoneAct[], until: TruthRow, input: EffectsInput): TruthRow {
  const { weather, startedAtMs, happenings, readyAtStartKg } = input;
  const acts = [
    ...later.map(({ act, before }) => ({ atMs: before.atMs, act: pileAct(act) })),
    ...happenings.map(({ afterH, act }) => ({ atMs: startedAtMs + afterH * msPerHour, act })),
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

/** A difference worth showing, and what is said of it: by how much, and whether it is more or less than without the act. */
interface Change {
  readonly of: (row: TruthRow) => number;
  readonly worth: number;
  readonly says: (size: number, isMore: boolean) => Message;
}

const points = (row: TruthRow) => 100 * row.moistureFrac;

const soonChanges: readonly Change[] = [
  {
    of: (row) => row.coreC,
    worth: 1,
    says: (valueK, isMore) => message('practice.effect.core', { byK: { valueK, decimals: 0 }, isMore }),
  },
  {
    of: points,
    worth: 1,
    says: (size, isMore) => message('practice.effect.wetness', { pointCount: Math.round(size), isMore }),
  },
  {
    of: (row) => row.leastOxygenFrac,
    worth: 0.02,
    says: (_size, isMore) => message('practice.effect.air', { isMore }),
  },
];

const changesAtEnd: readonly Change[] = [
  {
    of: points,
    worth: 1,
    says: (size, isMore) => message('practice.effect.water', { pointCount: Math.round(size), isMore }),
  },
  {
    of: (row) => row.aliveFrac,
    worth: 0.02,
    says: (byFrac, isMore) => message('practice.effect.alive', { byFrac, isMore }),
  },
  {
    of: (row) => row.workFrac,
    worth: 0.03,
    says: (byFrac, isMore) => message('practice.effect.work', { byFrac, isMore }),
  },
];

function didMessage(afterH: number, soon: Comparison, atEnd: Comparison): Message {
  const first = differences(soon, soonChanges);
  const second = differences(atEnd, changesAtEnd);
  if (first.length + second.length === 0) return message('practice.effect.none');
  const laterHours = soon.went.afterH - afterH;
  return paragraph(
    first.length === 0 ? null : message('practice.effect.soon', { laterHours, changesList: first }),
    second.length === 0 ? null : message('practice.effect.at-end', { changesList: second }),
  );
}

function differences({ went, without }: Comparison, changes: readonly Change[]): Message[] {
  return changes.flatMap(({ of, worth, says }) => {
    const by = of(went) - of(without);
    return Math.abs(by) < worth ? [] : [says(Math.abs(by), by > 0)];
  });
}
