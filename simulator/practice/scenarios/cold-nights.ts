import { mildClimate } from '../../model/climate.ts';
import { fourProbes, handTools, usualWeights } from './common.ts';
import type { PracticeScenario } from './practice-scenario.ts';

/** A thin bed in autumn that cannot keep its own warmth. */
export const coldNights: PracticeScenario = {
  id: 'cold-nights',
  name: 'Cold nights',
  story:
    'It is late autumn. The bed was mixed with warm water and plenty of starter, but it lies thin and open under a roof on posts, and the nights are near freezing. Left like this it will hardly start.',
  goal: {
    says: 'Bring it into its heat and get at least 70 % of the work done in eight days.',
    workFracMin: 0.7,
    aliveFracMin: 0.85,
    moistureFracMin: 0.5,
  },
  stage: 'bran',
  hours: 192,
  awayUntilH: 0,
  recipe: {
    ingredients: [{ material: 'wheat-bran', massKg: 90 }],
    moistureFrac: 0.6,
    doseFrac: 0.015,
    depthM: 0.12,
    tempC: 17,
    groundC: 9,
    groundWmK: 0.3,
    cover: 'open',
    shed: 'roof',
    shadeFrac: 0.5,
  },
  given: { material: 'wheat-bran', depthM: 0.12, moistureFrac: 0.6, doseFrac: 0.015, cover: 'open' },
  climate: { ...mildClimate, meanC: 4, seasonK: 0, dayK: 4, frontK: 2, rhPct: 80, windMS: 2.5 },
  probes: fourProbes(),
  happenings: [],
  tools: [...handTools, 'close-shed', 'open-shed'],
  weights: usualWeights,
  example: [
    { afterH: 1, act: { kind: 'heap', depthM: 0.36 } },
    { afterH: 1, act: { kind: 'cover', cover: 'breathable' } },
    { afterH: 2, act: { kind: 'close-shed' } },
    { afterH: 130, act: { kind: 'turn' } },
  ],
  lesson:
    'A pile keeps its warmth by depth and cover. In the cold heap it up, cover it with something that breathes, and still the wind; go back to a thinner bed when it is warm.',
};
