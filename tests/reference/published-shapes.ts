/**
 * Heaps others have measured, laid anew in the simulator.
 *
 * Kinetics are the defaults everywhere. What a heap's report does not tell (how many cells it came with, how much of it
 * is food at once, how it is packed) had to be assumed; figures marked "fitted" were chosen after trying.
 */
import { readFileSync } from 'node:fs';
import { actOn, type PileAct } from '../../simulator/model/acts.ts';
import type { Weather } from '../../simulator/model/air.ts';
import { type Material, materials } from '../../simulator/model/material.ts';
import { measuredAir } from '../../simulator/model/measured-air.ts';
import { createPile, type Pile, type PileRecipe } from '../../simulator/model/pile.ts';
import { runPile } from '../../simulator/model/step-pile.ts';
import { fieldsOf } from '../../simulator/replay/csv.ts';
import { steadyAir } from '../helpers/steady-air.ts';

/** A figure is reached within 5 °C and 8 h: what published models reach (Mason 2006, Waste Manag. 26:3-21). */
const toleranceC = 5;
const toleranceH = 8;

export interface Figure {
  readonly heap: string;
  readonly figure: string;
  readonly unit: '°C' | 'h';
  /** As published; a band where a band was printed. */
  readonly low: number;
  readonly high: number;
  readonly simulated: number;
}

export function reached({ unit, low, high, simulated }: Figure): boolean {
  const slack = unit === 'h' ? toleranceH : toleranceC;
  return simulated >= low - slack && simulated <= high + slack;
}

export function figuresOfAll(): Figure[] {
  return [...litterHeap(), ...koji(), ...hay(), ...cocoa()];
}

interface Run {
  /** Middle of the pile at the end of each hour [°C]; hour 1 first. */
  readonly middleC: number[];
  /** A sixth of the depth below the top and above the ground [°C]. */
  readonly upperC: number[];
  readonly lowerC: number[];
}

function run(recipe: PileRecipe, weather: Weather, hours: number, acts: Record<number, PileAct> = {}): Run {
  const pile: Pile = createPile(recipe);
  const middleC: number[] = [];
  const upperC: number[] = [];
  const lowerC: number[] = [];
  const sixth = Math.floor(pile.layers.length / 6);
  for (let hour = 1; hour <= hours; hour += 1) {
    const act = acts[hour - 1];
    if (act !== undefined) actOn(pile, act, weather(pile.atMs));
    runPile(pile, weather, recipe.startMs + hour * 3_600_000);
    middleC.push(pile.layers[Math.floor(pile.layers.length / 2)]?.tempC ?? Number.NaN);
    upperC.push(pile.layers[sixth]?.tempC ?? Number.NaN);
    lowerC.push(pile.layers[pile.layers.length - 1 - sixth]?.tempC ?? Number.NaN);
  }
  return { middleC, upperC, lowerC };
}

/** First hour at or above a temperature; NaN when there is none. */
function firstAt(temps: readonly number[], tempC: number): number {
  const index = temps.findIndex((value) => value >= tempC);
  return index < 0 ? Number.NaN : index + 1;
}

function peak(temps: readonly number[]): { tempC: number; atH: number } {
  const tempC = Math.max(...temps);
  return { tempC, atH: temps.indexOf(tempC) + 1 };
}

function litterHeap(): Figure[] {
  const lines = readFileSync('tests/data/litter-heap-2023-hourly.csv', 'utf8').trim().split(/\r?\n/);
  const rows = lines.slice(1).map((line) => fieldsOf(line).map((field) => (field === '' ? Number.NaN : Number(field))));
  const startMs = Date.UTC(2023, 7, 29, 9, 30);
  const weather = measuredAir(
    rows.map((row) => ({
      atMs: startMs + (row[1] ?? 0) * 3_600_000,
      tempC: row[6] ?? 15,
      rhPct: row[7] ?? 80,
      rainMmH: row[8] ?? 0,
      windMS: row[9] ?? 1,
      sunWM2: row[10] ?? 0,
      cloudFrac: 0.5,
    })),
  );
  const measured = rows.map((row) => row[4] ?? Number.NaN);
  const known = measured.filter(Number.isFinite);
  const hoursKnown = known.length;
  const measuredPeakC = Math.round(Math.max(...known) * 10) / 10;
  const litter: Material = {
    ...materials['finished-compost'],
    looseBulkKgM3: 260,
    particleKgM3: 1600,
    particleM: 0.002,
    holdingDryBasis: 2,
    readyFrac: 0.02, // fitted
    slowFrac: 0.35,
    mesophilesFrac: 5e-5, // fitted
    thermophilesFrac: 2e-5,
  };
  const { middleC, upperC, lowerC } = run(
    {
      ingredients: [{ material: litter, massKg: 22_000, moistureFrac: 0.488 }],
      moistureFrac: 0.488,
      doseFrac: 0,
      depthM: 1.8,
      tempC: 24,
      groundC: 16,
      startMs,
      layerCount: 15,
    },
    weather,
    hoursKnown,
    { 144: { kind: 'cover', cover: 'closed' } },
  );
  const simulated = peak(middleC);
  const heap = 'broiler litter, 22 t, 1.8 m (Kamp & Feilberg 2024)';
  const highest = (column: number) =>
    Math.round(Math.max(...rows.slice(0, hoursKnown).map((row) => row[column] ?? 0)) * 10) / 10;
  const timeOf = (tempC: number) => rows[measured.findIndex((value) => value >= tempC)]?.[1] ?? Number.NaN;
  const point = (figure: string, unit: Figure['unit'], value: number, given: number): Figure => ({
    heap,
    figure,
    unit,
    low: value,
    high: value,
    simulated: given,
  });
  return [
    point('middle reaches 40 °C', 'h', timeOf(40), firstAt(middleC, 40)),
    point('peak of the middle', '°C', measuredPeakC, simulated.tempC),
    point('time of that peak', 'h', timeOf(Math.max(...known)), simulated.atH),
    point('highest at the top probe (its depth assumed, 0.3 m)', '°C', highest(5), Math.max(...upperC)),
    point('highest at the bottom probe (0.3 m above ground, assumed)', '°C', highest(3), Math.max(...lowerC)),
  ];
}

/** Steamed rice, heaped overnight, spread when it is too hot (S3, second-hand). */
function koji(): Figure[] {
  const rice: Material = {
    ...materials['wheat-bran'],
    looseBulkKgM3: 480,
    particleKgM3: 1450,
    particleM: 0.003,
    holdingDryBasis: 1.2,
    readyFrac: 0.3,
    slowFrac: 0.5,
    mesophilesFrac: 2e-3, // fitted
    thermophilesFrac: 1e-7,
  };
  const { middleC } = run(
    {
      ingredients: [{ material: rice, massKg: 20, moistureFrac: 0.37 }],
      moistureFrac: 0.37,
      doseFrac: 0,
      depthM: 0.2,
      tempC: 30,
      startMs: 0,
      cover: 'breathable',
      groundWmK: 0.05,
      layerCount: 7,
    },
    steadyAir({ tempC: 30, rhPct: 85 }),
    40,
    { 18: { kind: 'spread', depthM: 0.1 } },
  );
  const heap = 'rice koji on a tray in a room of 30 °C (S3, second-hand)';
  const at = (hour: number) => middleC[hour - 1] ?? Number.NaN;
  return [
    { heap, figure: 'heaped, before spreading (12-20 h)', unit: '°C', low: 40, high: 40, simulated: at(18) },
    { heap, figure: 'just after spreading', unit: '°C', low: 35, high: 35, simulated: at(19) },
    { heap, figure: '6 h after spreading', unit: '°C', low: 42, high: 48, simulated: at(24) },
  ];
}

/** Stacks of hay that a flood had wetted, thirteen farms (S6, second-hand). */
function hay(): Figure[] {
  const wetHay: Material = {
    ...materials['wheat-bran'],
    looseBulkKgM3: 140, // fitted
    particleKgM3: 1300,
    particleM: 0.0005,
    holdingDryBasis: 3,
    readyFrac: 0.12, // fitted
    mesophilesFrac: 1e-3,
    thermophilesFrac: 3e-4,
  };
  const { middleC } = run(
    {
      ingredients: [{ material: wetHay, massKg: 8000, moistureFrac: 0.5 }],
      moistureFrac: 0.5,
      doseFrac: 0,
      depthM: 2.5,
      tempC: 15,
      startMs: 0,
      layerCount: 7,
    },
    steadyAir({ tempC: 15, rhPct: 80, windMS: 2 }),
    120,
  );
  const heap = 'flooded hay, stacks of thirteen farms (S6, second-hand)';
  const simulated = peak(middleC);
  return [
    { heap, figure: 'highest seen', unit: '°C', low: 74, high: 74, simulated: simulated.tempC },
    { heap, figure: 'most marked on the 2nd and 3rd day', unit: 'h', low: 48, high: 72, simulated: simulated.atH },
  ];
}

/** Cocoa beans in a sweat box, turned every second day (S1, second-hand). */
function cocoa(): Figure[] {
  const beans: Material = {
    ...materials['wheat-bran'],
    looseBulkKgM3: 380,
    particleKgM3: 1100,
    particleM: 0.012,
    dryHeatJKgK: 1600,
    holdingDryBasis: 1.6,
    readyFrac: 0.1,
    slowFrac: 0.2,
    mesophilesFrac: 1e-4,
    thermophilesFrac: 1e-5,
  };
  const { middleC } = run(
    {
      ingredients: [{ material: beans, massKg: 1200, moistureFrac: 0.55 }],
      moistureFrac: 0.55,
      doseFrac: 0,
      depthM: 1.2,
      tempC: 25,
      startMs: 0,
      cover: 'breathable',
      groundWmK: 0.1,
      layerCount: 7,
    },
    steadyAir({ tempC: 28, rhPct: 80 }),
    216,
    { 48: { kind: 'turn' }, 96: { kind: 'turn' }, 144: { kind: 'turn' } },
  );
  const heap = 'cocoa beans, 1.2 m sweat box (S1, second-hand)';
  const at = (hour: number) => middleC[hour - 1] ?? Number.NaN;
  return [
    { heap, figure: 'after 24 h', unit: '°C', low: 30, high: 30, simulated: at(24) },
    { heap, figure: 'after 48 h', unit: '°C', low: 37, high: 37, simulated: at(48) },
    { heap, figure: 'after 72 h', unit: '°C', low: 47, high: 47, simulated: at(72) },
    { heap, figure: 'plateau at 144 h', unit: '°C', low: 47, high: 48, simulated: at(144) },
  ];
}
