/**
 * Varied piles, each drawn around one condition.
 *
 * For trying rules out on. Rules tried out here are judged on piles made by another way (by-keeper.ts).
 */
import { createRandom, type Random } from '../model/random.ts';
import { type Scenario, type ScenarioText, scenarioSchema } from '../scenario/scenario-schema.ts';

type PileText = ScenarioText['sites'][number]['piles'][number];
type SiteText = ScenarioText['sites'][number];
type FaultText = NonNullable<PileText['probes'][number]['faults']>[number];

const conditions = ['ordinary', 'ordinary', 'ordinary', 'hot', 'dry', 'wet', 'cold', 'starved', 'soil'] as const;
const pilesPerSite = 10;

export function pilesByCondition(seed: number, pileCount: number): Scenario {
  const random = createRandom(seed ^ 0x0c0d);
  const sites: SiteText[] = [];
  for (let from = 0; from < pileCount; from += pilesPerSite) {
    const condition = conditions[sites.length % conditions.length] ?? 'ordinary';
    const here = Math.min(pilesPerSite, pileCount - from);
    sites.push({
      name: `site-${sites.length + 1}`,
      climate: climateFor(condition, random),
      piles: Array.from({ length: here }, (_, i) => pileFor(condition, `bed-${from + i + 1}`, random)),
    });
  }
  return scenarioSchema.parse({ name: `piles by condition, seed ${seed}`, days: 8, sites });
}

function climateFor(condition: (typeof conditions)[number], random: Random): NonNullable<SiteText['climate']> {
  const means = { hot: [24, 32], cold: [2, 9], dry: [20, 32] } as const;
  const [low, high] =
    condition === 'hot' || condition === 'cold' || condition === 'dry' ? means[condition] : ([13, 25] as const);
  return {
    meanC: random.between(low, high),
    seasonK: 0,
    dayK: random.between(2, 7),
    frontK: random.between(1, 4),
    rhPct: condition === 'dry' ? random.between(20, 40) : random.between(50, 85),
    windMS: condition === 'dry' ? random.between(2, 5) : random.between(0.3, 2.5),
  };
}

function pileFor(condition: (typeof conditions)[number], name: string, random: Random): PileText {
  const soil = condition === 'soil';
  const rice = random.next() < 0.25;
  const bran = rice ? 'rice-bran' : 'wheat-bran';
  const depthM = soil
    ? random.between(0.12, 0.25)
    : condition === 'hot'
      ? random.between(0.3, 0.45)
      : condition === 'dry'
        ? random.between(0.1, 0.2)
        : random.between(0.18, rice ? 0.26 : 0.3);
  const moistureFrac = soil
    ? random.between(0.38, 0.48)
    : condition === 'wet'
      ? random.between(0.68, 0.76)
      : condition === 'dry'
        ? random.between(0.42, 0.54)
        : random.between(0.53, rice ? 0.6 : 0.64);
  const massKg = random.between(150, 260) * depthM;
  return {
    name,
    stage: soil ? 'soil' : 'bran',
    recipe: {
      ingredients: soil
        ? [
            { material: 'fermented-bran', massKg: massKg, moistureFrac: random.between(0.4, 0.55) },
            { material: 'soil', massKg: massKg * random.between(0.8, 1.2) },
          ]
        : [{ material: bran, massKg }],
      moistureFrac,
      doseFrac: condition === 'starved' ? 0 : random.between(0.002, 0.02),
      depthM,
      tempC: random.between(14, 24),
      cover: condition === 'dry' ? 'open' : 'breathable',
      shadeFrac: random.between(0.5, 1),
    },
    acts: random.next() < 0.5 ? [{ kind: 'turn', afterH: random.between(30, 80) }] : [],
    probes: probesOf(name, random),
  };
}

function probesOf(name: string, random: Random): PileText['probes'] {
  const positions = ['core', 'top', 'base', 'air'] as const;
  const faulty = random.next() < 0.2 ? random.pick(positions) : undefined;
  return positions.map((position) => ({
    name: `${name}-${position}`,
    position,
    chip: position === 'base' ? 'one-wire' : 'damp-air',
    everyS: 600,
    faults: position === faulty ? [faultOf(random)] : [],
  }));
}

function faultOf(random: Random): FaultText {
  const fromH = random.between(10, 120);
  const toH = fromH + random.between(6, 60);
  return random.pick<FaultText>([
    { kind: 'stuck', fromH, toH },
    { kind: 'pulled-out', fromH, toH },
    { kind: 'flat-battery', fromH },
    { kind: 'late', fromH, toH },
    { kind: 'power-on', fromH, toH, share: 0.1 },
    { kind: 'unplugged', fromH, toH },
    { kind: 'drifting', fromH, toH, perDayK: 4 },
    { kind: 'dropped', share: 0.3 },
  ]);
}
