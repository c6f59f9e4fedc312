import { mildClimate } from '../../model/climate.ts';
import { fourProbes, usualWeights } from './common.ts';
import type { PracticeScenario } from './practice-scenario.ts';

/** Somebody was generous with the hose. */
export const tooWet: PracticeScenario = {
  id: 'too-wet',
  name: 'Too wet at the start',
  story:
    'The bran was mixed in a hurry, and too much water went in. It lies under a mat by the wall, heavy and shining. Without air it will sour instead of warming.',
  goal: {
    says: 'Get air into it: at least 60 % of its work done after seven days, at 66 % moisture or less.',
    workFracMin: 0.6,
    moistureFracMax: 0.66,
    aliveFracMin: 0.8,
  },
  stage: 'bran',
  hours: 168,
  awayUntilH: 0,
  recipe: {
    ingredients: [{ material: 'rice-bran', massKg: 55 }],
    moistureFrac: 0.71,
    doseFrac: 0.006,
    depthM: 0.3,
    tempC: 19,
    cover: 'breathable',
    shadeFrac: 0.9,
    shed: 'roof',
  },
  given: { material: 'rice-bran', depthM: 0.3, moistureFrac: 0.6, doseFrac: 0.006, cover: 'breathable' },
  climate: { ...mildClimate, meanC: 20, seasonK: 0 },
  probes: fourProbes(),
  happenings: [],
  tools: ['squeeze', 'look-and-smell', 'turn', 'add-dry-bran', 'spread', 'heap', 'cover', 'uncover', 'water', 'finish'],
  weights: usualWeights,
  example: [
    { afterH: 0, act: { kind: 'squeeze' } },
    { afterH: 1, act: { kind: 'add-dry-bran', massKg: 25 } },
    { afterH: 2, act: { kind: 'spread', depthM: 0.2 } },
    { afterH: 72, act: { kind: 'turn' } },
    { afterH: 110, act: { kind: 'turn' } },
  ],
  lesson:
    'Fine wet bran has no room for air. Dry bran stirred in, a thinner bed and a turn give it room; waiting does not, for it dries far too slowly.',
};
