/** One real finding of every kind, and of every order a kind gives, made by the detectors themselves. */

import type { PileSetup } from '../../core/profiles/pile-setup.ts';
import type { Finding } from '../../core/warnings/finding.ts';
import { plainEnglish } from '../../shared/messages/render.ts';
import { selfHeatingLadder } from '../../shared/stage.ts';
import { msPerHour, msPerMinute } from '../../shared/units.ts';
import { Played, play, setupOf, startMs, through } from '../core/helpers.ts';

const noted = (what: NonNullable<PileSetup['noted']>[number]['what']): Played => {
  const all = new Played(setupOf('bran', { noted: [{ atMs: startMs + msPerHour, by: 'Ana', what }] }));
  for (let hour = 0; hour <= 2; hour += 1) {
    all.feed('core', 30 + hour, startMs + hour * msPerHour);
    all.evaluate(startMs + hour * msPerHour);
  }
  return all;
};

function topAndBase(): Played {
  const all = new Played(setupOf());
  for (let hour = 0; hour <= 30; hour += 1) {
    const atMs = startMs + hour * msPerHour;
    for (const [position, tempC] of [
      ['core', 42],
      ['top', 40],
      ['base', 25],
      ['air', 20],
    ] as const)
      all.feed(position, tempC + 0.03 * (hour % 7), atMs);
    all.lookUntil(atMs + 50 * msPerMinute);
  }
  return all;
}

/** A probe that speaks once in two hours and jumps by 30 °C. */
function jumped(): Played {
  const all = new Played(setupOf());
  for (let hour = 0; hour <= 12; hour += 2) {
    all.feed('core', hour === 12 ? 72 : 40 + 0.1 * hour, startMs + hour * msPerHour);
    all.evaluate(startMs + hour * msPerHour + msPerHour);
  }
  return all;
}

/** A probe of fine steps that says one number from the sixth hour on. */
function stuck(): Played {
  const all = new Played(setupOf());
  for (let minute = 0; minute <= 36 * 60; minute += 10) {
    all.feed('core', minute < 6 * 60 ? 39 + 0.0625 * (minute / 20) : 40, startMs + minute * msPerMinute);
    all.lookUntil(startMs + minute * msPerMinute);
  }
  return all;
}

/** The probe under the skin said to be the core's, and the other way round. */
function swapped(): Played {
  const all = new Played(setupOf());
  const warmC = through([0, 18], [30, 40], [60, 39]);
  for (let hour = 0; hour <= 60; hour += 1) {
    const atMs = startMs + hour * msPerHour;
    all.feed('air', day(hour), atMs);
    all.feed('core', 0.6 * day(hour) + 14, atMs);
    all.feed('top', warmC(hour), atMs);
    all.lookUntil(atMs + 50 * msPerMinute);
  }
  return all;
}

const wetRecipe = { material: 'rice-bran', depthM: 0.3, massKg: 100, moistureFrac: 0.75, cover: 'breathable' } as const;
const dryRecipe = { ...setupOf().recipe, moistureFrac: 0.42 };

const works = through([0, 22], [30, 42], [110, 41]);
const day = (hour: number): number => 15 - 5 * Math.cos((2 * Math.PI * (hour - 3)) / 24);

const plays: readonly (() => Played)[] = [
  () => play(setupOf(), 42, through([0, 22], [40, 52], [42, 53])),
  () => play(setupOf(), 40, through([0, 22], [40, 61])),
  () => play(setupOf(), 27, through([0, 22], [24, 44], [30, 50])),
  () => play(setupOf(), 60, through([0, 22], [40, 63], [46, 63], [50, 44], [60, 42])),
  jumped,
  () => noted({ kind: 'squeeze', feel: 'crumbles' }),
  () => noted({ kind: 'squeeze', feel: 'pours' }),
  () => noted({ kind: 'smell', smells: ['rotten'] }),
  () => noted({ kind: 'smell', smells: ['ammonia'] }),
  () => noted({ kind: 'growth', colour: 'black', place: 'all-through', amount: 'many' }),
  () => noted({ kind: 'growth', colour: 'green', place: 'skin', amount: 'few' }),
  () => play(setupOf('bran', { recipe: dryRecipe }), 60, through([0, 22], [30, 42], [60, 42])),
  () => play(setupOf('bran', { recipe: wetRecipe }), 34, through([0, 20], [34, 24])),
  () => play(setupOf(), 60, () => 22),
  () =>
    play(
      setupOf(),
      12,
      () => 9,
      () => 8,
    ),
  topAndBase,
  swapped,
  () => play(setupOf(), 20, (hour) => (hour < 8 ? 30 : null)),
  stuck,
  () => play(setupOf(), 60, (hour) => (hour < 45 ? works(hour) : day(hour)), day),
];

/** Present ones, each order once. */
export function findingGallery(): Finding[] {
  const byOrder = new Map<string, Finding>();
  for (const played of plays) {
    for (const finding of played().last?.findings ?? []) {
      if (finding.evidence === 'present') byOrder.set(`${finding.kind}/${plainEnglish(finding.todo)}`, finding);
    }
  }
  return [...byOrder.values()];
}

/** A pile whose core has come to a step of the self-heating ladder. */
export function heatedTo(rung: number): Played {
  const toC = (selfHeatingLadder[rung]?.fromC ?? Number.NaN) + 1;
  const all = new Played(setupOf());
  [toC - 9, toC - 6, toC - 3, toC].forEach((tempC, index) => {
    all.feed('core', tempC, startMs + index * msPerHour);
    all.evaluate(startMs + index * msPerHour);
  });
  return all;
}
