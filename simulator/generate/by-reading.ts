/**
 * Varied piles, each read in a way of its own: how often, in what steps, with what losses, by probes in the wrong place.
 *
 * For whoever watches readings as growers have them. A hand, a probe that lies in another pile for hours and a core that
 * hovers at a limit are drawn by tests/bench/detect/columns.ts over piles of the other ways.
 */
import { createRandom, type Random } from '../model/random.ts';
import type { ChipName } from '../probes/chip.ts';
import { type Scenario, type ScenarioText, scenarioSchema } from '../scenario/scenario-schema.ts';

type SiteText = ScenarioText['sites'][number];
type PileText = SiteText['piles'][number];
type ProbeText = PileText['probes'][number];
type FaultText = NonNullable<ProbeText['faults']>[number];

const minuteS = 60;
const hourS = 60 * minuteS;
/** From each minute to once a day [s]. */
const rhythmsS = [1, 10, 30, 60, 180, 360, 720, 1440].map((minutes) => minutes * minuteS) as [number, ...number[]];
const chips: readonly [ChipName, ...ChipName[]] = [
  'one-wire',
  'damp-air',
  'half-degree',
  'whole-degree',
  'whole-fahrenheit',
];

/** How what is measured comes in. */
const troubles: Record<string, (random: Random) => FaultText[]> = {
  none: () => [],
  'lost one by one': (random) => [{ kind: 'dropped', share: random.between(0.05, 0.4) }],
  'lost in bursts': (random) => [{ kind: 'dropped', share: random.between(0.05, 0.4), inARow: 5 }],
  'an outage': (random) => [{ kind: 'dropped', share: 1, ...outage(random) }],
  'kept back, then all at once': (random) => [{ kind: 'late', ...outage(random) }],
  'a clock that is off': (random) => [{ kind: 'wrong-clock', byS: random.between(-hourS, 4 * minuteS) }],
  'a run-down cell': (random) => [{ kind: 'flat-battery', ...outage(random) }],
};

/** Of an hour to three days, short ones oftener than long. */
function outage(random: Random): { fromH: number; toH: number } {
  const fromH = random.between(12, 140);
  return { fromH, toH: fromH + Math.exp(random.between(0, Math.log(72))) };
}

/** Where probes lie that are meant for core and top, below the surface [m]; by position where nothing is said. */
const places: readonly [Place, ...Place[]] = ['as meant', 'as meant', 'as meant', 'swapped', 'core too shallow'];
type Place = 'as meant' | 'swapped' | 'core too shallow';

export function pilesByReading(seed: number, pileCount: number): Scenario {
  const random = createRandom(seed ^ 0x6ead);
  const sites = Array.from({ length: pileCount }, (_, i): SiteText => {
    const meanC = random.between(0, 40);
    return {
      name: `strip-${i + 1}`,
      climate: { meanC, seasonK: 0, dayK: random.between(1.5, 8), rhPct: random.between(30, 85) },
      piles: [pileOf(`ridge-${i + 1}`, meanC, random)],
    };
  });
  return scenarioSchema.parse({ name: `piles by reading, seed ${seed}`, days: 9, sites });
}

function pileOf(name: string, meanC: number, random: Random): PileText {
  const soil = random.next() < 0.2;
  const massKg = Math.exp(random.between(Math.log(25), Math.log(700)));
  const depthM = Math.exp(random.between(Math.log(0.05), Math.log(1)));
  // Half of it finished compost, bran feeds half as well.
  const bran = random.pick(['wheat-bran', 'rice-bran'] as const);
  const poor = random.next() < 0.25;
  return {
    name,
    stage: soil ? 'soil' : 'bran',
    recipe: {
      ingredients: soil
        ? [
            { material: 'fermented-bran', massKg: massKg / 2 },
            { material: 'soil', massKg: massKg / 2 },
          ]
        : poor
          ? [
              { material: bran, massKg: massKg / 2 },
              { material: 'finished-compost', massKg: massKg / 2 },
            ]
          : [{ material: bran, massKg }],
      moistureFrac: soil ? random.between(0.42, 0.5) : random.between(0.5, 0.64),
      doseFrac: random.between(0.002, 0.025),
      depthM,
      tempC: Math.max(2, meanC + random.between(-3, 5)),
      cover: random.pick(['breathable', 'breathable', 'closed', 'open']),
    },
    acts: random.next() < 0.5 ? [{ kind: 'turn', afterH: random.between(36, 110) }] : [],
    probes: probesOf(name, depthM, random),
  };
}

function probesOf(pile: string, depthM: number, random: Random): ProbeText[] {
  const everyS = random.pick(rhythmsS);
  const chip = random.pick(chips);
  const place = random.pick(places);
  const faults = random.pick(Object.values(troubles) as [(typeof troubles)[string], ...(typeof troubles)[string][]]);
  const skinM = Math.min(0.05, depthM / 4);
  const liesM = {
    core: place === 'as meant' ? undefined : skinM,
    top: place === 'swapped' ? depthM / 2 : undefined,
    air: undefined,
  };
  return (['core', 'top', 'air'] as const).map((position) => ({
    name: `${pile}-${position}`,
    position,
    depthM: liesM[position],
    chip,
    everyS,
    faults: faults(random),
  }));
}
