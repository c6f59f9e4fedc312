/**
 * What truly became of a pile, to hold a judge's words against. It never knows the judge's rules: these are written
 * from what is really so inside the pile.
 */
import type { Stage } from '../../shared/names.ts';
import { pictureOf } from '../model/picture.ts';
import type { FaultKind } from '../probes/fault.ts';
import type { PlayedPile } from './farm.ts';

export interface PileTruth {
  readonly site: string;
  readonly pile: string;
  readonly stage: Stage;
  readonly laidAtMs: number;
  /** Hours since laying at which something first was so; null when it never was. */
  passes50AtH: number | null;
  passes60AtH: number | null;
  /** Five points below what the stage wants. */
  driedAtH: number | null;
  /** Food is left, but for twelve hours in a row there was no heat of its own. */
  stalledAtH: number | null;
  peakC: number;
  peakAtH: number;
  hoursAbove50: number;
  moistureFracAtEnd: number;
  aliveFracAtEnd: number;
  readonly faults: readonly {
    readonly probe: string;
    readonly kind: FaultKind;
    readonly fromH: number;
    readonly toH: number | null;
  }[];
}

/** Moisture five points below what the stage wants [-]. */
const dryFrac: Record<Stage, number> = { bran: 0.45, soil: 0.35 };
/** Heat of its own that counts as working [K], and the hour from which it may be missed [h]. */
const workingK: Record<Stage, number> = { bran: 5, soil: 2 };
const stallFromH: Record<Stage, number> = { bran: 36, soil: 24 };
/** Ready food eaten, share of what was laid, beyond which cooling is the end and no stall [-]. */
const eatenShare: Record<Stage, number> = { bran: 0.85, soil: 0.5 };
const stallRunH = 12;
const afterHandsH = 18;

/** Follows one pile; call `note` after each step (hours are picked out), `handled` after each act. */
export function followTruth(played: PlayedPile) {
  const { setup, pile } = played;
  const { stage } = setup;
  const readyAtStart = readyFoodKg(played);
  const truth = newTruth(setup);
  const airC: number[] = [];
  let lastHour = 0;
  let handledAtH = Number.NEGATIVE_INFINITY;
  let coldRunH = 0;

  function note(): void {
    const hour = Math.floor((pile.atMs - setup.laidAtMs) / 3_600_000 + 1e-9);
    if (hour === lastHour) return;
    lastHour = hour;
    const picture = pictureOf(pile);
    const coreC = picture.layers[Math.floor(picture.layers.length / 2)]?.tempC ?? Number.NaN;
    airC.push(played.weather(pile.atMs).tempC);
    if (airC.length > 24) airC.shift();
    if (coreC > truth.peakC) {
      truth.peakC = coreC;
      truth.peakAtH = hour;
    }
    if (coreC > 50) {
      truth.passes50AtH ??= hour;
      truth.hoursAbove50 += 1;
    }
    if (coreC > 60) truth.passes60AtH ??= hour;
    if (picture.moistureFrac < dryFrac[stage]) truth.driedAtH ??= hour;
    const cold = coreC - airC.reduce((sum, tempC) => sum + tempC, 0) / airC.length < workingK[stage];
    const eaten = pile.ledger.burntKg / ((1 - pile.kinetics.yieldKgKg) * readyAtStart);
    const counts = hour >= stallFromH[stage] && hour - handledAtH > afterHandsH && eaten < eatenShare[stage];
    coldRunH = cold && counts ? coldRunH + 1 : 0;
    if (coldRunH >= stallRunH) truth.stalledAtH ??= hour - stallRunH;
    truth.moistureFracAtEnd = picture.moistureFrac;
    truth.aliveFracAtEnd = picture.aliveFrac;
  }

  return {
    truth,
    note,
    handled(): void {
      handledAtH = (pile.atMs - setup.laidAtMs) / 3_600_000;
    },
  };
}

/** Before anything became of it. */
function newTruth(setup: PlayedPile['setup']): PileTruth {
  return {
    site: setup.site,
    pile: setup.name,
    stage: setup.stage,
    laidAtMs: setup.laidAtMs,
    passes50AtH: null,
    passes60AtH: null,
    driedAtH: null,
    stalledAtH: null,
    peakC: Number.NEGATIVE_INFINITY,
    peakAtH: 0,
    hoursAbove50: 0,
    moistureFracAtEnd: Number.NaN,
    aliveFracAtEnd: Number.NaN,
    faults: setup.probes.flatMap(({ name, faults }) =>
      faults.map(({ kind, fromH, toH }) => ({ probe: name, kind, fromH, toH: toH ?? null })),
    ),
  };
}

function readyFoodKg({ pile }: PlayedPile): number {
  return Math.max(1e-9, pile.footprintM2 * pile.layers.reduce((sum, layer) => sum + layer.readyKgM2, 0));
}
