/**
 * Varied piles, drawn from keepers and their habits rather than from troubles.
 *
 * For reporting on: no rule was tried out on these, and nothing here is shared with by-condition.ts but the schema.
 */

import { createRandom, type Random } from '../model/random.ts';
import type { FaultKind } from '../probes/fault.ts';
import { type Scenario, type ScenarioText, scenarioSchema } from '../scenario/scenario-schema.ts';

type SiteText = ScenarioText['sites'][number];
type PileText = SiteText['piles'][number];

interface Keeper {
  /** Lays everything so deep, and adds so much more or less water than meant. */
  readonly depthM: number;
  readonly generousFrac: number;
  readonly doseFrac: number;
  /** Rounds are made every so many hours; at each a pile is turned with this likelihood. */
  readonly roundH: number;
  readonly turns: number;
  readonly waters: number;
  readonly usesRiceBran: number;
  readonly cover: 'open' | 'breathable' | 'closed';
  /** Age of the probes: likelihood of a fault in each over a week. */
  readonly wear: number;
}

type Region = NonNullable<SiteText['climate']>;

/** Mean of the year, season and day swing, damp and wind of a few kinds of country. */
const regions: readonly [Region, ...Region[]] = [
  { meanC: 11, seasonK: 7, dayK: 4, frontK: 3, rhPct: 80, windMS: 2.5, latitudeDeg: 52 },
  { meanC: 17, seasonK: 8, dayK: 7, frontK: 2.5, rhPct: 62, windMS: 1.5, latitudeDeg: 41 },
  { meanC: 25, seasonK: 3, dayK: 4, frontK: 1.5, rhPct: 76, windMS: 2, latitudeDeg: 20 },
  { meanC: 21, seasonK: 9, dayK: 9, frontK: 2, rhPct: 38, windMS: 2.5, latitudeDeg: 33 },
];

export function pilesByKeeper(seed: number, pileCount: number): Scenario {
  const random = createRandom(seed ^ 0x7ee9);
  const sites: SiteText[] = [];
  let piles = 0;
  while (piles < pileCount) {
    const keeper = keeperOf(random);
    const here = Math.min(1 + Math.floor(random.next() * 6), pileCount - piles);
    sites.push({
      name: `farm-${sites.length + 1}`,
      climate: inSeason(random.pick(regions), random),
      piles: Array.from({ length: here }, (_, i) => pileOf(keeper, `p${piles + i + 1}`, random)),
    });
    piles += here;
  }
  return scenarioSchema.parse({ name: `piles by keeper, seed ${seed}`, days: 9, sites });
}

/** Every farm lays its piles at its own time of the year, so the season goes into the mean. */
function inSeason(region: Region, random: Random): Region {
  const { meanC = 15, seasonK = 0 } = region;
  const monthTurn = 2 * Math.PI * random.between(-0.3, 0.3);
  return {
    ...region,
    meanC: meanC + seasonK * Math.cos(monthTurn),
    seasonK: 0,
    utcOffsetH: Math.floor(random.between(-8, 9)),
  };
}

function keeperOf(random: Random): Keeper {
  return {
    depthM: 0.22 + 0.1 * Math.abs(random.normal()),
    generousFrac: 0.035 * random.normal(),
    doseFrac: 0.008 * Math.exp(0.7 * random.normal()),
    roundH: random.pick([12, 24, 24, 48]),
    turns: random.next() * 0.5,
    waters: random.next() * 0.3,
    usesRiceBran: random.next() < 0.3 ? 0.8 : 0.1,
    cover: random.pick(['open', 'breathable', 'breathable', 'breathable', 'closed']),
    wear: random.next() * 0.12,
  };
}

function pileOf(keeper: Keeper, name: string, random: Random): PileText {
  const rice = random.next() < keeper.usesRiceBran;
  const soil = random.next() < 0.2;
  const depthM = Math.min(0.6, keeper.depthM * Math.exp(0.12 * random.normal()) * (soil ? 0.75 : 1));
  const meant = soil ? 0.43 : rice ? 0.57 : 0.6;
  const moistureFrac = Math.min(0.8, Math.max(0.3, meant + keeper.generousFrac + 0.015 * random.normal()));
  const massKg = Math.max(8, 90 * Math.exp(0.6 * random.normal()));
  const acts: PileText['acts'] = [];
  for (let afterH = keeper.roundH; afterH < 200; afterH += keeper.roundH) {
    const atH = afterH + random.between(-1, 1);
    if (random.next() < keeper.turns) acts.push({ kind: 'turn', afterH: atH });
    if (random.next() < keeper.waters)
      acts.push({ kind: 'water', afterH: atH, waterKg: massKg * random.between(0.02, 0.1) });
  }
  return {
    name,
    stage: soil ? 'soil' : 'bran',
    laidAfterH: Math.floor(random.between(0, 24)),
    recipe: {
      ingredients: soil
        ? [
            { material: 'fermented-bran', massKg },
            { material: random.next() < 0.3 ? 'finished-compost' : 'soil', massKg },
          ]
        : [
            { material: rice ? 'rice-bran' : 'wheat-bran', massKg },
            ...(random.next() < 0.15 ? [{ material: 'finished-compost' as const, massKg: massKg * 0.05 }] : []),
          ],
      moistureFrac,
      doseFrac: Math.min(0.1, keeper.doseFrac),
      depthM,
      tempC: random.between(12, 26),
      cover: keeper.cover,
      shed: random.next() < 0.4 ? 'roof' : 'none',
      shadeFrac: random.between(0.2, 1),
    },
    acts,
    probes: (['core', 'top', 'base', 'air'] as const).map((position) => ({
      name: `${name}-${position}`,
      position,
      chip: random.next() < 0.5 ? 'damp-air' : 'one-wire',
      everyS: random.pick([300, 600, 900]),
      faults: random.next() < keeper.wear ? [wornOut(random)] : [],
    })),
  };
}

function wornOut(random: Random): NonNullable<PileText['probes'][number]['faults']>[number] {
  const fromH = random.between(5, 150);
  const kind = random.pick<FaultKind>([
    'stuck',
    'pulled-out',
    'flat-battery',
    'drifting',
    'unplugged',
    'dropped',
    'late',
    'power-on',
  ]);
  if (kind === 'late') return { kind, fromH, toH: fromH + random.between(2, 30) };
  return { kind, fromH };
}
