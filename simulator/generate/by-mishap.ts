/**
 * Varied piles, each soundly meant, and something then goes amiss with most of them.
 *
 * For reporting on: no rule was tried out on these. The other two ways seldom make a pile that stands still; this one
 * does.
 */
import { createRandom, type Random } from '../model/random.ts';
import { type Scenario, type ScenarioText, scenarioSchema } from '../scenario/scenario-schema.ts';

type SiteText = ScenarioText['sites'][number];
type PileText = SiteText['piles'][number];
type RecipeText = PileText['recipe'];
type ActText = NonNullable<PileText['acts']>[number];
type FaultText = NonNullable<PileText['probes'][number]['faults']>[number];

/** What a mishap does to a recipe, and what it has somebody do, or leave, afterwards. */
interface Mishap {
  readonly recipe?: (random: Random, recipe: RecipeText) => Partial<RecipeText>;
  readonly acts?: (random: Random, massKg: number, depthM: number) => ActText[];
}

const mishaps = {
  none: {},
  'bran laid too dry': { recipe: (random) => ({ moistureFrac: random.between(0.3, 0.46) }) },
  'starter forgotten, cold water used': { recipe: (random) => ({ doseFrac: 0, tempC: random.between(4, 11) }) },
  'raked out too thin': { recipe: (random) => ({ depthM: random.between(0.06, 0.12) }) },
  'laid too deep': { recipe: (random) => ({ depthM: random.between(0.4, 0.75) }) },
  'mats blown off': {
    acts: (random) => [
      { kind: 'uncover', afterH: random.between(12, 72) },
      { kind: 'shade', afterH: 80, shadeFrac: 0.3 },
    ],
  },
  'hose left running': {
    acts: (random, massKg) => [
      { kind: 'water', afterH: random.between(10, 60), waterKg: massKg * random.between(0.4, 1.2) },
    ],
  },
  'fan left on': { acts: (random) => [{ kind: 'fan', afterH: random.between(12, 72), windMS: random.between(2, 5) }] },
  'spread for fear of heat': {
    acts: (random, _massKg, depthM) => [
      { kind: 'spread', afterH: random.between(20, 60), depthM: depthM * random.between(0.25, 0.5) },
    ],
  },
  'heaped for the night and left': {
    acts: (random, _massKg, depthM) => [
      { kind: 'heap', afterH: random.between(20, 60), depthM: depthM * random.between(1.8, 3) },
    ],
  },
} as const satisfies Record<string, Mishap>;
type MishapName = keyof typeof mishaps;

const drawn = ['none', 'none', 'none', 'none', ...(Object.keys(mishaps) as MishapName[])] as [
  MishapName,
  ...MishapName[],
];

export function pilesByMishap(seed: number, pileCount: number): Scenario {
  const random = createRandom(seed ^ 0x3a11);
  const sites = Array.from({ length: pileCount }, (_, i): SiteText => {
    const meanC = random.between(2, 30);
    return {
      name: `plot-${i + 1}`,
      climate: {
        meanC,
        seasonK: 0,
        dayK: random.between(1.5, 8),
        frontK: random.between(0.5, 4),
        rhPct: random.between(30, 85),
        windMS: random.between(0.3, 4),
        rainShare: random.between(0, 0.1),
        latitudeDeg: random.between(-50, 55),
      },
      piles: [pileOf(random.pick(drawn), `lot-${i + 1}`, meanC, random)],
    };
  });
  return scenarioSchema.parse({ name: `piles by mishap, seed ${seed}`, days: 10, sites });
}

function pileOf(name: MishapName, pile: string, meanC: number, random: Random): PileText {
  const mishap: Mishap = mishaps[name];
  const soil = random.next() < 0.25;
  const massKg = Math.exp(random.between(Math.log(25), Math.log(700)));
  const depthM = soil ? random.between(0.12, 0.2) : random.between(0.2, 0.36);
  const meant: RecipeText = {
    ingredients: soil
      ? [
          { material: 'fermented-bran', massKg: massKg * 0.5 },
          { material: random.pick(['soil', 'soil', 'finished-compost']), massKg: massKg * 0.5 },
        ]
      : [{ material: random.pick(['wheat-bran', 'wheat-bran', 'rice-bran']), massKg }],
    moistureFrac: soil ? random.between(0.42, 0.5) : random.between(0.53, 0.64),
    doseFrac: random.between(0.004, 0.025),
    depthM,
    tempC: Math.max(5, meanC + random.between(-3, 5)),
    cover: random.pick(['breathable', 'breathable', 'breathable', 'closed', 'open']),
    shed: random.pick(['none', 'none', 'roof', 'closed']),
    shadeFrac: random.between(0.3, 1),
  };
  const recipe = { ...meant, ...mishap.recipe?.(random, meant) };
  const acts: ActText[] = [...(mishap.acts?.(random, massKg, recipe.depthM ?? depthM) ?? [])];
  if (random.next() < 0.4) acts.push({ kind: 'turn', afterH: random.between(40, 110) });
  if (random.next() < 0.2) acts.push({ kind: 'turn', afterH: random.between(110, 180) });
  return { name: pile, stage: soil ? 'soil' : 'bran', recipe, acts, probes: probesOf(pile, random) };
}

function probesOf(pile: string, random: Random): PileText['probes'] {
  const everyS = random.pick([600, 900, 1800]);
  const positions = random.next() < 0.75 ? (['core', 'top', 'base', 'air'] as const) : (['core', 'air'] as const);
  const faulty = random.next() < 0.15 ? random.pick(['core', 'core', 'air'] as const) : undefined;
  return positions.map((position) => ({
    name: `${pile}-${position}`,
    position,
    chip: position === 'core' ? random.pick(['one-wire', 'damp-air']) : 'one-wire',
    everyS,
    faults: position === faulty ? [faultOf(random)] : [],
  }));
}

function faultOf(random: Random): FaultText {
  const fromH = random.between(12, 150);
  return random.pick<FaultText>([
    { kind: 'stuck', fromH },
    { kind: 'pulled-out', fromH, toH: fromH + random.between(24, 72) },
    { kind: 'unplugged', fromH },
    { kind: 'late', fromH, toH: fromH + random.between(24, 72) },
    { kind: 'dropped', share: random.between(0.1, 0.35) },
  ]);
}
