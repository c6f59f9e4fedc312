/** The farm Saltmere, which never was: two sites, four piles, four fates. */
import type { Position, Stage } from '../../../shared/names.ts';
import { type Scenario, type ScenarioText, scenarioSchema } from '../../scenario/scenario-schema.ts';

type Fate = 'overheating' | 'drying' | 'stalling' | 'fine';

export interface DemoPile {
  readonly id: string;
  readonly name: string;
  readonly site: string;
  readonly stage: Stage;
  readonly fate: Fate;
  /** Hours between the first instant of the farm and the laying of this pile [h]. */
  readonly laidAfterH: number;
  readonly probes: readonly { readonly name: string; readonly position: Position }[];
}

export interface DemoFarm {
  readonly seed: number;
  /** How long the farm has run when the clock starts [h]. */
  readonly historyH: number;
  readonly sites: readonly { readonly id: string; readonly name: string }[];
  readonly piles: readonly DemoPile[];
  readonly scenario: Scenario;
}

const historyH = 96;

function probesOf(prefix: string) {
  return [
    { name: `${prefix}-core`, position: 'core', chip: 'damp-air' },
    { name: `${prefix}-top`, position: 'top', chip: 'damp-air' },
    { name: `${prefix}-base`, position: 'base', chip: 'one-wire' },
    { name: `${prefix}-air`, position: 'air', chip: 'damp-air' },
  ] as const;
}

type PileText = ScenarioText['sites'][number]['piles'][number];

/** A deep bed of wheat bran in warm weather, with a shovel of finished compost in it: its second hump goes too far. */
const overheating: PileText = {
  name: 'Barn end, deep bed',
  laidAfterH: 40,
  recipe: {
    ingredients: [
      { material: 'wheat-bran', massKg: 80 },
      { material: 'finished-compost', massKg: 3 },
    ],
    moistureFrac: 0.6,
    doseFrac: 0.01,
    depthM: 0.36,
    tempC: 24,
  },
  probes: [...probesOf('barn')],
};

/** Laid a little dry, uncovered, and somebody left a fan on. */
const drying: PileText = {
  name: 'Lean-to, by the fan',
  laidAfterH: 36,
  recipe: {
    ingredients: [{ material: 'wheat-bran', massKg: 40 }],
    moistureFrac: 0.47,
    doseFrac: 0.006,
    depthM: 0.17,
    tempC: 24,
    cover: 'open',
    shed: 'roof',
    shadeFrac: 1,
  },
  acts: [{ kind: 'fan', afterH: 20, windMS: 5 }],
  probes: [...probesOf('leanto')],
};

/** Fine rice bran, too wet and too deep: it runs out of air before it is warm through. */
const stalling: PileText = {
  name: 'Lower terrace, rice bran',
  laidAfterH: 30,
  recipe: {
    ingredients: [{ material: 'rice-bran', massKg: 70 }],
    moistureFrac: 0.68,
    doseFrac: 0.004,
    depthM: 0.34,
    tempC: 18,
  },
  probes: [...probesOf('lower')],
};

/** Right depth, right damp, turned when it was warm. */
const fine: PileText = {
  name: 'Upper terrace, wheat bran',
  laidAfterH: 66,
  recipe: {
    ingredients: [{ material: 'wheat-bran', massKg: 50 }],
    moistureFrac: 0.6,
    doseFrac: 0.006,
    depthM: 0.24,
    tempC: 19,
  },
  acts: [{ kind: 'turn', afterH: 44 }],
  probes: [...probesOf('upper')],
};

/** @param seed Gives the weather and the errors of the probes. */
export function demoFarm(seed: number): DemoFarm {
  const scenario = scenarioSchema.parse({
    name: 'Saltmere in early summer',
    days: 60,
    sites: [
      {
        name: 'saltmere-yard',
        climate: { meanC: 26, seasonK: 0, dayK: 6, frontK: 1.5, rhPct: 50, rainShare: 0.02 },
        piles: [overheating, drying],
      },
      {
        name: 'saltmere-terrace',
        climate: { meanC: 18, seasonK: 0, dayK: 5, frontK: 1.5, rhPct: 68, rainShare: 0.04 },
        piles: [stalling, fine],
      },
    ],
  } satisfies ScenarioText);
  const fates: readonly (readonly Fate[])[] = [
    ['overheating', 'drying'],
    ['stalling', 'fine'],
  ];
  const piles = scenario.sites.flatMap((site, s) =>
    site.piles.map((pile, p): DemoPile => {
      const prefix = pile.probes[0]?.name.replace(/-core$/, '') ?? 'pile';
      return {
        id: `${prefix}-bed`,
        name: pile.name,
        site: site.name,
        stage: pile.stage,
        fate: fates[s]?.[p] ?? 'fine',
        laidAfterH: pile.laidAfterH,
        probes: pile.probes.map(({ name, position }) => ({ name, position })),
      };
    }),
  );
  return {
    seed,
    historyH,
    sites: [
      { id: 'saltmere-yard', name: 'Saltmere Yard' },
      { id: 'saltmere-terrace', name: 'Saltmere Terrace' },
    ],
    piles,
    scenario,
  };
}
