/**
 * Three ways of inventing the piles that rules are tried out on. The first draws around a purpose (ordinary, hot, dry, cold
 * ...); the second draws a grower, a region and a season, and lets what happens happen; the third has somebody do the bed a
 * bad turn.
 */

import type { Position } from '../../../shared/names.ts';
import { type Climate, mildClimate } from '../../../simulator/model/climate.ts';
import { mixOf, type PileCover } from '../../../simulator/model/pile.ts';
import { createRandom, type Random } from '../../../simulator/model/random.ts';
import { shelterOf } from '../../../simulator/model/shelter.ts';
import type { Fault, FaultKind, Hand, Scenario } from './scenario.ts';
import { ingredientsOf } from './world.ts';

const faultKinds: readonly [FaultKind, ...FaultKind[]] = ['silent', 'stuck', 'out', 'spikes'];
const day0 = Date.UTC(2031, 0, 1);

type Told = Omit<Scenario['told'], 'shelter' | 'rainShare'>;
/** As drawn: what is told of shelter and rain is added when it is laid. */
type Drawn = Omit<Scenario, 'told'> & { readonly told: Told };

/** Each pile has a purpose. */
export function purposeful(number: number, shift = 0): Scenario {
  return asLaid(drawPurposeful(number, shift));
}

function drawPurposeful(number: number, shift: number): Drawn {
  const random = createRandom(7_000_001 + number * 7919);
  const purposes = [
    'ordinary',
    'ordinary',
    'ordinary',
    'ordinary',
    'ordinary',
    'soil',
    'soil',
    'hot',
    'hot',
    'dry',
    'cold',
    'starved',
    'wet',
    'faulty',
    'odd',
    'odd',
    'odd',
    'odd',
    'odd',
    'odd',
    'odd',
    'odd',
  ] as const;
  const purpose = purposes[number % purposes.length] ?? 'ordinary';
  if (purpose === 'odd') return odd(number, random, shift);
  const soil = purpose === 'soil';
  const hot = purpose === 'hot';
  const dry = purpose === 'dry';
  const cover: PileCover = hot ? random.pick(['open', 'breathable']) : dry ? 'open' : 'breathable';
  const climate: Climate = {
    ...mildClimate,
    seasonK: 0,
    meanC: hot
      ? random.between(20, 32)
      : dry
        ? random.between(18, 34)
        : purpose === 'cold'
          ? random.between(1, 9)
          : random.between(14, 26),
    dayK: random.between(2, 7),
    frontK: random.between(1, 4),
    rainShare: dry ? 0 : mildClimate.rainShare,
    rhPct: dry ? random.between(18, 40) : random.between(55, 85),
    windMS: dry ? random.between(2, 5) : random.between(0.5, 2.5),
  };
  const moistureFrac =
    purpose === 'wet'
      ? random.between(0.7, 0.8)
      : purpose === 'starved'
        ? random.between(0.25, 0.4)
        : soil
          ? random.between(0.4, 0.5)
          : hot
            ? random.between(0.47, 0.58)
            : random.between(dry ? 0.47 : 0.54, dry ? 0.55 : 0.64);
  const doseFrac = purpose === 'cold' ? random.between(0, 0.002) : random.between(0.004, 0.03);
  const massKg = random.between(40, 600);
  const days = soil ? 7 : dry ? 14 : 10;
  const hands: Hand[] = [];
  const logged = (): boolean => random.next() < 0.85;
  if (random.next() < 0.6) hands.push({ hour: random.between(36, 90), act: { kind: 'turn' }, logged: logged() });
  if (random.next() < 0.35) hands.push({ hour: random.between(90, 160), act: { kind: 'turn' }, logged: logged() });
  if (random.next() < 0.25) {
    hands.push({
      hour: random.between(40, 150),
      act: { kind: 'water', waterKg: massKg * random.between(0.03, 0.1) },
      logged: logged(),
    });
  }
  return {
    name: `${purpose}-${number}`,
    seed: number * 31 + 5,
    stage: soil ? 'soil' : 'bran',
    material: soil
      ? random.pick(['soil-mix', 'compost-mix'])
      : purpose === 'wet' || (!hot && random.next() < 0.3)
        ? 'rice-bran'
        : 'wheat-bran',
    days,
    startMs: day0 + Math.floor(random.between(0, 365)) * 86_400_000 + Math.floor(random.between(6, 18)) * 3_600_000,
    climate,
    depthM: hot
      ? random.between(0.38, 0.8)
      : dry
        ? random.between(0.1, 0.24)
        : soil
          ? random.between(0.12, 0.22)
          : random.between(0.2, 0.36),
    moistureFrac,
    doseFrac,
    massKg,
    tempC: climate.meanC + random.between(-2, 4),
    cover,
    shed: dry ? 'none' : random.pick(['roof', 'none', 'closed']),
    shadeFrac: dry ? random.between(0, 0.5) : random.between(0.5, 1),
    fanMS: dry ? random.between(0, 4) : 0,
    hands,
    told: toldOf(random, moistureFrac, doseFrac, massKg),
    ...probesOf(random, purpose === 'faulty' ? 1 : 0.08, days),
    shift,
  };
}

/** Anything at all, tended often and logged half of the time. */
function odd(number: number, random: Random, shift: number): Drawn {
  const soil = random.next() < 0.35;
  const days = soil ? 8 : 13;
  const moistureFrac = soil ? random.between(0.32, 0.55) : random.between(0.42, 0.72);
  const doseFrac = random.between(0, 0.04);
  const massKg = random.between(30, 900);
  const depthM = Math.exp(random.between(Math.log(0.1), Math.log(soil ? 0.35 : 0.8)));
  const hands: Hand[] = [];
  const everyH = random.between(28, 90);
  for (let hour = random.between(24, 70); hour < days * 24 - 24; hour += everyH) {
    hands.push({ hour, act: { kind: 'turn' }, logged: random.next() < 0.5 });
  }
  if (random.next() < 0.2) {
    hands.push({
      hour: random.between(30, 100),
      act: { kind: 'spread', depthM: depthM * 0.6 },
      logged: random.next() < 0.5,
    });
  }
  const climate = {
    ...mildClimate,
    meanC: random.between(2, 32),
    seasonK: 0,
    dayK: random.between(2, 10),
    frontK: random.between(1, 4),
    rhPct: random.between(35, 85),
  };
  return {
    name: `odd-${number}`,
    seed: number * 31 + 5,
    stage: soil ? 'soil' : 'bran',
    material: soil ? random.pick(['soil-mix', 'compost-mix']) : random.pick(['wheat-bran', 'wheat-bran', 'rice-bran']),
    days,
    startMs: day0 + Math.floor(random.between(0, 365)) * 86_400_000,
    climate,
    depthM,
    moistureFrac,
    doseFrac,
    massKg,
    tempC: Math.max(4, climate.meanC + random.between(-4, 4)),
    cover: random.pick(['open', 'breathable', 'breathable', 'closed']),
    shed: random.pick(['roof', 'none', 'closed']),
    shadeFrac: random.next(),
    fanMS: 0,
    hands,
    told: toldOf(random, moistureFrac, doseFrac, massKg),
    ...probesOf(random, 0.2, days),
    shift,
  };
}

const regions: readonly [Climate, ...Climate[]] = [
  { ...mildClimate, meanC: 14, seasonK: 5, dayK: 4, rhPct: 80, windMS: 2.5 },
  { ...mildClimate, meanC: 17, seasonK: 9, dayK: 9, rhPct: 50, windMS: 1.5, rainShare: 0.02 },
  { ...mildClimate, meanC: 26, seasonK: 3, dayK: 4, rhPct: 82, windMS: 1, rainShare: 0.2, latitudeDeg: 12 },
  { ...mildClimate, meanC: 11, seasonK: 9, dayK: 6, rhPct: 70, windMS: 2, latitudeDeg: 50 },
  { ...mildClimate, meanC: 23, seasonK: 7, dayK: 10, rhPct: 32, windMS: 3, rainShare: 0.01, latitudeDeg: 33 },
];

/** A grower somewhere, in some week of the year. */
export function anybody(number: number, shift = 0): Scenario {
  return asLaid(drawAnybody(number, shift));
}

function drawAnybody(number: number, shift: number): Drawn {
  const random = createRandom(73_000_013 + number * 104_729);
  const climate = random.pick(regions);
  // 0 careless ... 1 careful: careful growers mix, shade and log better, and turn when it suits.
  const care = random.next();
  const soil = random.next() < 0.25;
  const rice = !soil && random.next() < 0.35;
  const spread = (low: number, best: number, high: number): number => {
    const wild = random.between(low, high);
    return best * care + wild * (1 - care) + random.normal() * 0.03 * (high - low);
  };
  const moistureFrac = Math.min(
    0.82,
    Math.max(0.25, soil ? spread(0.25, 0.45, 0.6) : spread(0.3, rice ? 0.54 : 0.58, 0.75)),
  );
  const doseFrac = Math.max(0, spread(0, 0.012, 0.04));
  const depthM = Math.max(0.08, soil ? spread(0.08, 0.18, 0.35) : spread(0.1, 0.3, 0.9));
  const massKg = Math.exp(random.between(Math.log(20), Math.log(1500)));
  const days = soil ? Math.floor(random.between(5, 9)) : Math.floor(random.between(8, 15));
  const startMs =
    day0 + Math.floor(random.between(0, 365)) * 86_400_000 + Math.floor(random.between(5, 20)) * 3_600_000;
  const hands: Hand[] = [];
  const everyH = random.pick([0, 0, 36, 48, 72]);
  for (
    let hour = random.between(24, 60);
    everyH > 0 && hour < days * 24 - 24;
    hour += everyH * random.between(0.8, 1.3)
  ) {
    hands.push({ hour, act: { kind: 'turn' }, logged: random.next() < 0.5 + 0.5 * care });
    if (random.next() < 0.2) {
      hands.push({
        hour: hour + 0.2,
        act: { kind: 'water', waterKg: massKg * random.between(0.02, 0.12) },
        logged: random.next() < 0.5 + 0.5 * care,
      });
    }
  }
  if (random.next() < 0.15) {
    hands.push({
      hour: random.between(24, 96),
      act: { kind: 'spread', depthM: Math.max(0.06, depthM * 0.6) },
      logged: random.next() < 0.5 + 0.5 * care,
    });
  }
  return {
    name: `anybody-${number}`,
    seed: number * 57 + 120_011,
    stage: soil ? 'soil' : 'bran',
    material: soil ? random.pick(['soil-mix', 'compost-mix']) : rice ? 'rice-bran' : 'wheat-bran',
    days,
    startMs,
    climate,
    depthM,
    moistureFrac,
    doseFrac,
    massKg,
    tempC: Math.max(4, climate.meanC + random.between(-4, 4)),
    cover: random.pick(['breathable', 'breathable', 'breathable', 'closed', 'open']),
    shed: random.pick(['roof', 'none', 'closed']),
    shadeFrac: random.between(0.4, 1) * care,
    fanMS: random.next() < 0.12 ? random.between(0.5, 4) : 0,
    hands,
    told: toldOf(random, moistureFrac, doseFrac, massKg),
    ...probesOf(random, 0.2, days),
    shift,
  };
}

/** A bed meant well that lies dry, or comes to lie drier, hotter to the wind or thinner than its grower thinks. */
export function mishandled(number: number, shift = 0): Scenario {
  return asLaid(drawMishandled(number, shift));
}

const blunders = ['laid dry', 'laid dry', 'bared', 'draughty', 'raked', 'thin', 'sunned', 'dribbled'] as const;

function drawMishandled(number: number, shift: number): Drawn {
  const random = createRandom(311_000_017 + number * 15_485_863);
  const blunder = random.pick(blunders);
  const soil = random.next() < 0.22;
  const rice = !soil && random.next() < 0.3;
  const good = soil ? random.between(0.4, 0.48) : random.between(0.52, rice ? 0.6 : 0.62);
  const moistureFrac = blunder === 'laid dry' ? good - random.between(0.03, 0.16) : good;
  const depthM = (soil ? random.between(0.1, 0.22) : random.between(0.18, 0.4)) * (blunder === 'thin' ? 0.5 : 1);
  const massKg = Math.exp(random.between(Math.log(30), Math.log(900)));
  const doseFrac = random.between(0.003, 0.03);
  const days = soil ? 8 : 11;
  const seldom = (): boolean => random.next() < 0.35;
  const hour = random.between(10, 90);
  const hands: Hand[] = [];
  if (blunder === 'bared') hands.push({ hour, act: { kind: 'uncover' }, logged: seldom() });
  if (blunder === 'draughty')
    hands.push({ hour, act: { kind: 'fan', windMS: random.between(1, 4.5) }, logged: seldom() });
  if (blunder === 'raked')
    hands.push({ hour, act: { kind: 'spread', depthM: depthM * random.between(0.3, 0.7) }, logged: seldom() });
  if (blunder === 'dribbled')
    hands.push({ hour, act: { kind: 'water', waterKg: massKg * random.between(0.01, 0.05) }, logged: true });
  if (random.next() < 0.5)
    hands.push({ hour: random.between(36, 120), act: { kind: 'turn' }, logged: random.next() < 0.75 });
  const meanC = random.between(5, 31);
  const climate: Climate = {
    ...mildClimate,
    meanC,
    seasonK: 0,
    dayK: random.between(2, 9),
    frontK: random.between(1, 4),
    rhPct: random.between(28, 88),
    windMS: random.between(0.4, 4),
    rainShare: random.between(0, 0.12),
  };
  return {
    name: `mishandled-${number}`,
    seed: number * 71 + 900_007,
    stage: soil ? 'soil' : 'bran',
    material: soil ? random.pick(['soil-mix', 'compost-mix']) : rice ? 'rice-bran' : 'wheat-bran',
    days,
    startMs: day0 + Math.floor(random.between(0, 365)) * 86_400_000 + Math.floor(random.between(6, 19)) * 3_600_000,
    climate,
    depthM,
    moistureFrac,
    doseFrac,
    massKg,
    tempC: Math.max(4, meanC + random.between(-3, 4)),
    cover: random.pick(['open', 'breathable', 'breathable', 'closed']),
    shed: random.pick(['none', 'none', 'roof', 'closed']),
    shadeFrac: blunder === 'sunned' ? random.between(0, 0.3) : random.between(0.3, 1),
    fanMS: 0,
    hands,
    told: toldOf(random, moistureFrac, doseFrac, massKg),
    ...probesOf(random, 0.12, days),
    shift,
  };
}

/**
 * Water is added until the wanted moisture is reached and never taken away, so a mix is no drier than what went into it; a
 * grower weighs what is laid, water included.
 */
function asLaid(scenario: Drawn): Scenario {
  const { dryKg, waterKg } = mixOf(ingredientsOf(scenario), scenario.moistureFrac);
  const moistureFrac = waterKg / (waterKg + dryKg);
  const { told } = scenario;
  return {
    ...scenario,
    moistureFrac,
    told: {
      ...told,
      moistureFrac:
        told.moistureFrac === undefined ? undefined : told.moistureFrac + (moistureFrac - scenario.moistureFrac),
      massKg: told.massKg === undefined ? undefined : waterKg + dryKg,
      shelter: createRandom(scenario.seed ^ 0x51e1).next() < 0.8 ? shelterOf[scenario.shed] : undefined,
      rainShare: scenario.shed === 'none' ? createRandom(scenario.seed ^ 0x3a1e).between(0.5, 1) : 0,
    },
  };
}

function toldOf(random: Random, moistureFrac: number, doseFrac: number, massKg: number): Told {
  return {
    moistureFrac: random.next() < 0.8 ? Math.round((moistureFrac + 0.015 * random.normal()) * 100) / 100 : undefined,
    doseFrac: random.next() < 0.6 ? doseFrac : undefined,
    massKg: random.next() < 0.8 ? massKg : undefined,
  };
}

function probesOf(
  random: Random,
  faultShare: number,
  days: number,
): Pick<Scenario, 'everyMin' | 'positions' | 'humidity' | 'lossShare' | 'faults'> {
  const positions: Position[] = random.next() < 0.7 ? ['core', 'top', 'base', 'air'] : ['core', 'air'];
  const drawn: Fault | null =
    random.next() < faultShare
      ? {
          kind: random.pick(faultKinds),
          position: random.next() < 0.7 ? 'core' : random.pick(['air', positions.includes('top') ? 'top' : 'core']),
          hour: random.between(20, days * 24 - 30),
        }
      : null;
  // A probe that measures the air cannot be pulled out into it.
  const fault: Fault | null = drawn?.position === 'air' && drawn.kind === 'out' ? { ...drawn, kind: 'stuck' } : drawn;
  return {
    everyMin: random.pick([10, 10, 20, 30, 60]),
    positions,
    humidity: random.next() < 0.6,
    lossShare: random.next() < 0.5 ? 0 : random.between(0, 0.25),
    faults: fault === null ? [] : [fault],
  };
}
