/**
 * The reported half: piles that the simulator's own generators invent, by seed, felt by its own probes; how far constants are
 * moved is said with the seed. It shares no line with the development half but the shapes, what counts as true, and how
 * constants are moved.
 *
 * As in the server: 85 °C of a chip read too early goes through the guard of ingest, a cut wire's -127 is refused, and what
 * an outage holds back does not count as heard (the server would judge anew when it comes; here it is lost, which is harder).
 * A drifting probe is left out: nothing claims to find one.
 */
import type { JudgeReading } from '../../../core/profiles/pile-setup.ts';
import { createPowerOnGuard } from '../../../ingest/decode/power-on-guard.ts';
import type { Material } from '../../../shared/profiles/material-names.ts';
import { quantityFacts } from '../../../shared/quantity.ts';
import { type Farm, type FarmPile, farmOf } from '../../../simulator/farm/farm.ts';
import { playFarm } from '../../../simulator/farm/play-farm.ts';
import { pilesByCondition } from '../../../simulator/generate/by-condition.ts';
import { pilesByKeeper } from '../../../simulator/generate/by-keeper.ts';
import { pilesByMishap } from '../../../simulator/generate/by-mishap.ts';
import { defaultKinetics } from '../../../simulator/model/kinetics.ts';
import { mixOf } from '../../../simulator/model/pile.ts';
import { createRandom, seedOf } from '../../../simulator/model/random.ts';
import { shelterOf } from '../../../simulator/model/shelter.ts';
import type { Fault as ProbeFault } from '../../../simulator/probes/fault.ts';
import type { ProbeSetup } from '../../../simulator/probes/probe.ts';
import type { Case, Relaid } from './case.ts';
import type { Fault, Hand, Story } from './scenario.ts';
import { truthOf } from './truth.ts';
import { emptyWorld, feed, sampleInto, sampleMin, shiftIngredients, shiftKinetics, type World } from './world.ts';

const startMs = Date.UTC(2031, 2, 1);
const days = { keeper: 9, condition: 8, mishap: 10 } as const;

/** A quarter of the piles by keepers, a quarter by conditions, half by mishaps: the first two seldom make a pile that stands still. */
export function* farmCases(seed: number, piles: number, shift = 0): Generator<Case, void, undefined> {
  const quarter = Math.floor(piles / 4);
  yield* played('keeper', farmOf(pilesByKeeper(seed, quarter), seed, startMs), shift);
  yield* played('condition', farmOf(pilesByCondition(seed + 1, quarter), seed + 1, startMs), shift);
  yield* played('mishap', farmOf(pilesByMishap(seed + 2, piles - 2 * quarter), seed + 2, startMs), shift);
}

function* played(by: keyof typeof days, farm: Farm, shift: number): Generator<Case, void, undefined> {
  for (const pile of farm.piles) {
    yield playedCase(by, farm, pile, shift, {});
  }
}

function playedCase(by: keyof typeof days, farm: Farm, pile: FarmPile, shift: number, change: Relaid): Case {
  const laid = relaid(pile, change);
  const moved = shifted(laid, farm.seed, shift);
  const scenario = storyOf(by, laid, farm.seed);
  const { world, readings } = play({ ...farm, startMs: laid.laidAtMs, piles: [moved] }, moved, scenario.days);
  return {
    scenario,
    world,
    readings,
    truth: truthOf(scenario, world),
    finely: () => readings,
    relaid: (other) => playedCase(by, farm, pile, shift, other),
    gapH: 0,
  };
}

function relaid(pile: FarmPile, { depthM = pile.recipe.depthM, heatRatio = 1 }: Relaid): FarmPile {
  const { recipe } = pile;
  return { ...pile, recipe: { ...recipe, depthM, ingredients: feed(recipe.ingredients, heatRatio) } };
}

/** Out of order or with a cut wire, a pile's probes are heard as the server would hear them. */
function play(farm: Farm, pile: FarmPile, dayCount: number): { world: World; readings: JudgeReading[] } {
  const world = emptyWorld(dayCount);
  const weather = farm.weather.get(pile.site);
  const placeOf = new Map(pile.probes.map(({ name, position }) => [name, position]));
  const guard = createPowerOnGuard();
  const readings: JudgeReading[] = [];
  let sampler: ReturnType<typeof sampleInto> | undefined;
  const messages = playFarm(farm, {
    untilMs: pile.laidAtMs + dayCount * 86_400_000 + 1,
    onStep: (one) => {
      const air = weather?.(one.pile.atMs);
      if (air === undefined) return;
      const outdoors = one.pile.shed === 'closed' ? { ...air, tempC: one.pile.shedAirC } : air;
      if (sampler === undefined) {
        sampler = sampleInto(world, one.pile);
        sampler.take(0, outdoors);
      }
      const sample = (one.pile.atMs - pile.laidAtMs) / (sampleMin * 60_000);
      if (Number.isInteger(sample) && sample < world.samples) sampler.take(sample, outdoors);
    },
  });
  for (const message of messages) {
    if (message.kind !== 'reading' || message.sendAtMs > message.atMs) continue;
    const position = placeOf.get(message.probe);
    if (position === undefined) continue;
    for (const quantity of ['temperature', 'humidity'] as const) {
      const value = message.values[quantity];
      if (value === undefined) continue;
      const { site, probe, atMs } = message;
      const range = quantityFacts[quantity];
      if (value < range.min || value > range.max) continue;
      if (quantity === 'temperature' && !guard.accepts({ site, probe, quantity, value, atMs })) continue;
      readings.push({ position, quantity, value, atMs });
    }
  }
  return { world, readings: readings.sort((one, other) => one.atMs - other.atMs) };
}

function shifted(pile: FarmPile, seed: number, shift: number): FarmPile {
  const random = createRandom(seedOf(`${pile.name}/moved`) ^ seed);
  const { recipe } = pile;
  return {
    ...pile,
    probes: pile.probes.map((probe) => ({ ...probe, faults: probe.faults.filter(({ kind }) => kind !== 'drifting') })),
    recipe: {
      ...recipe,
      ingredients: shiftIngredients(recipe.ingredients, shift, random),
      kinetics: shiftKinetics(recipe.kinetics ?? defaultKinetics, shift, random),
    },
  };
}

/** What the keeper of the site tells and logs: some write everything down, some every other thing. */
function storyOf(by: keyof typeof days, pile: FarmPile, seed: number): Story {
  const keeper = createRandom(seedOf(`${pile.site}/habits`) ^ seed);
  const writesDown = keeper.between(0.5, 1);
  const random = createRandom(seedOf(`${pile.name}/told`) ^ seed);
  const { recipe, stage, laidAtMs } = pile;
  const { dryKg, waterKg } = mixOf(recipe.ingredients, recipe.moistureFrac);
  const moistureFrac = waterKg / (waterKg + dryKg);
  return {
    name: `${by}-${pile.site}-${pile.name}`,
    stage,
    material: materialOf(pile),
    days: days[by],
    startMs: laidAtMs,
    depthM: recipe.depthM,
    cover: recipe.cover ?? 'open',
    hands: pile.acts
      .filter(({ afterH }) => afterH < days[by] * 24)
      .map(({ afterH, act }): Hand => ({ hour: afterH, act, logged: random.next() < writesDown })),
    told: {
      moistureFrac: random.next() < 0.8 ? Math.round((moistureFrac + 0.015 * random.normal()) * 100) / 100 : undefined,
      doseFrac: random.next() < 0.6 ? recipe.doseFrac : undefined,
      massKg: random.next() < 0.8 ? waterKg + dryKg : undefined,
      shelter: random.next() < 0.8 ? shelterOf[recipe.shed ?? 'none'] : undefined,
      rainShare: (recipe.shed ?? 'none') === 'none' ? writesDown : 0,
    },
    faults: pile.probes.flatMap((probe) => probe.faults.flatMap((fault) => faultOf(probe, fault))),
  };
}

function materialOf({ recipe }: FarmPile): Material {
  const names = recipe.ingredients.map(({ material }) => material);
  if (names.includes('soil')) return 'soil-mix';
  if (names.includes('fermented-bran')) return 'compost-mix';
  return names.includes('rice-bran') ? 'rice-bran' : 'wheat-bran';
}

/** As the bench counts it; lost messages and an early 85 °C are no fault of a probe, a drift is left out. */
function faultOf({ position }: ProbeSetup, { kind, fromH, toH }: ProbeFault): Fault[] {
  switch (kind) {
    case 'stuck':
      return [{ kind, position, hour: fromH, untilHour: toH }];
    case 'pulled-out':
      return position === 'air' ? [] : [{ kind: 'out', position, hour: fromH, untilHour: toH }];
    case 'flat-battery':
      return [{ kind: 'silent', position, hour: fromH + 24, untilHour: toH }]; // it dies for a day
    case 'unplugged':
    case 'late':
      return [{ kind: 'silent', position, hour: fromH, untilHour: toH }];
    default:
      return [];
  }
}
