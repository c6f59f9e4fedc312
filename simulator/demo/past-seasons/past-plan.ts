/**
 * What was laid at Saltmere in two invented years: 24 batches by two keepers, by seed, with their acts and mistakes. How a
 * batch fared is left to the physics.
 */
import type { Stage } from '../../../shared/names.ts';
import { msPerHour } from '../../../shared/units.ts';
import { createRandom, type Random } from '../../model/random.ts';
import type { ScenarioText } from '../../scenario/scenario-schema.ts';

type Mistake = 'none' | 'too-deep' | 'too-dry' | 'too-wet' | 'weak-starter' | 'forgotten';

type PileText = ScenarioText['sites'][number]['piles'][number];

export interface PastBatch {
  readonly id: string;
  readonly name: string;
  readonly site: 'saltmere-yard' | 'saltmere-terrace';
  readonly pileId: string;
  /** First part of its probes' names. */
  readonly probes: string;
  readonly stage: Stage;
  readonly year: number;
  readonly laidAtMs: number;
  readonly lengthH: number;
  readonly mistake: Mistake;
  readonly recipe: PileText['recipe'];
  readonly acts: NonNullable<PileText['acts']>;
  readonly massKg: number;
  /** The bran batch it was made from. */
  readonly fromId: string | null;
}

const months = ['April', 'May', 'July', 'September'] as const;
const monthNumbers = [3, 4, 6, 8] as const;

const places = [
  { site: 'saltmere-yard', says: 'Yard', bran: ['barn-bed', 'barn'], soil: ['leanto-bed', 'leanto'] },
  { site: 'saltmere-terrace', says: 'Terrace', bran: ['lower-bed', 'lower'], soil: ['upper-bed', 'upper'] },
] as const;

/** By year, place and month: every keeper learns, a little. */
const mistakes: readonly (readonly (readonly Mistake[])[])[] = [
  [
    ['none', 'too-deep', 'too-deep', 'none'],
    ['weak-starter', 'too-wet', 'none', 'forgotten'],
  ],
  [
    ['none', 'none', 'too-dry', 'none'],
    ['none', 'too-wet', 'none', 'none'],
  ],
];

/** After which bran batch of the year a soil batch was mixed. */
const followed = [0, 2];

export function pastPlan(seed: number, demoYear: number): PastBatch[] {
  const random = createRandom(seed ^ 0x9a57);
  const batches: PastBatch[] = [];
  for (const [y, year] of [demoYear - 2, demoYear - 1].entries()) {
    for (const [p, place] of places.entries()) {
      for (const [m, month] of months.entries()) {
        const mistake = mistakes[y]?.[p]?.[m] ?? 'none';
        const laidAtMs =
          Date.UTC(year, monthNumbers[m] ?? 3, 3 + Math.floor(random.between(0, 12)), 7) +
          Math.floor(random.between(0, 16)) * 900_000;
        const bran = branBatch(random, p, mistake, {
          id: `${year}-${place.says.toLowerCase()}-bran-${m + 1}`,
          name: `${place.says} bran, ${month} ${year}`,
          site: place.site,
          pileId: place.bran[0],
          probes: place.bran[1],
          year,
          laidAtMs,
        });
        batches.push(bran);
        if (!followed.includes(m)) continue;
        batches.push(
          soilBatch(random, bran, {
            id: `${year}-${place.says.toLowerCase()}-soil-${m + 1}`,
            name: `${place.says} soil, ${month} ${year}`,
            pileId: place.soil[0],
            probes: place.soil[1],
          }),
        );
      }
    }
  }
  return batches.sort((a, b) => a.laidAtMs - b.laidAtMs);
}

type Where = Pick<PastBatch, 'id' | 'name' | 'site' | 'pileId' | 'probes' | 'year' | 'laidAtMs'>;

function branBatch(random: Random, place: number, mistake: Mistake, where: Where): PastBatch {
  // At the terrace rice bran is cheaper; the yard lays deeper.
  const rice = mistake === 'too-wet' || (place === 1 && random.next() < 0.35);
  const usualM = random.between(0.22, 0.28) + (place === 0 ? 0.02 : 0);
  const depthM = round(mistake === 'too-deep' ? random.between(0.42, 0.48) : usualM, 2);
  const massKg = Math.round(depthM * random.between(180, 240));
  const moistureFrac = {
    none: random.between(0.575, 0.61),
    'too-deep': 0.6,
    'too-dry': 0.46,
    'too-wet': random.between(0.67, 0.7),
    'weak-starter': 0.59,
    forgotten: 0.58,
  }[mistake];
  const acts: PastBatch['acts'] = [];
  const firstTurnH = random.between(40, 60);
  if (mistake !== 'forgotten') {
    acts.push({ kind: 'turn', afterH: round(firstTurnH, 1) });
    if (random.next() < 0.7) acts.push({ kind: 'turn', afterH: round(firstTurnH + random.between(20, 48), 1) });
    if (random.next() < 0.45)
      acts.push({
        kind: 'water',
        afterH: round(firstTurnH + 1, 1),
        waterKg: Math.max(1, Math.round(massKg * random.between(0.03, 0.07))),
      });
  }
  return {
    ...where,
    stage: 'bran',
    lengthH: Math.round(random.between(168, 228)),
    mistake,
    massKg,
    fromId: null,
    acts,
    recipe: {
      ingredients: [
        { material: rice ? 'rice-bran' : 'wheat-bran', massKg },
        ...(mistake === 'too-deep' ? [{ material: 'finished-compost' as const, massKg: 6 }] : []),
      ],
      moistureFrac: round(moistureFrac, 3),
      doseFrac: mistake === 'weak-starter' ? 0.0002 : round(random.between(0.005, 0.01), 4),
      depthM,
      tempC: round(random.between(15, 21), 1),
      cover: mistake === 'too-dry' ? 'open' : 'breathable',
      shed: place === 0 ? 'roof' : 'none',
      shadeFrac: place === 0 ? 1 : 0.85,
      ...(mistake === 'too-dry' && { fanMS: 2.5 }),
    },
  };
}

function soilBatch(
  random: Random,
  bran: PastBatch,
  where: Pick<PastBatch, 'id' | 'name' | 'pileId' | 'probes'>,
): PastBatch {
  const massKg = bran.massKg;
  return {
    ...where,
    site: bran.site,
    year: bran.year,
    stage: 'soil',
    laidAtMs: bran.laidAtMs + bran.lengthH * msPerHour,
    lengthH: Math.round(random.between(96, 168)),
    mistake: 'none',
    massKg: 2 * massKg,
    fromId: bran.id,
    acts: random.next() < 0.5 ? [{ kind: 'turn', afterH: round(random.between(30, 60), 1) }] : [],
    recipe: {
      ingredients: [
        { material: 'fermented-bran', massKg },
        { material: 'soil', massKg },
      ],
      moistureFrac: round(random.between(0.41, 0.46), 3),
      doseFrac: 0,
      depthM: round(random.between(0.15, 0.2), 2),
      tempC: round(random.between(16, 22), 1),
      cover: 'breathable',
      shadeFrac: 0.9,
    },
  };
}

function round(value: number, decimals: number): number {
  return Number(value.toFixed(decimals));
}
