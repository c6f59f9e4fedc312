import { mildClimate } from '../../model/climate.ts';
import { fourProbes, handTools } from './common.ts';
import type { PracticeScenario } from './practice-scenario.ts';

/** Two days later the second heat is already on its way. */
export const forgotten: PracticeScenario = {
  id: 'forgotten',
  name: 'Forgotten for two days',
  story:
    'The bed was laid deep and warm, and then two days went by. The record of the probes is there: read it before you lift the mat.',
  goal: {
    says: 'Save at least 80 % of the culture, and do not lose the batch to cold either: 75 % of the work done.',
    aliveFracMin: 0.8,
    workFracMin: 0.75,
  },
  stage: 'bran',
  hours: 144,
  awayUntilH: 48,
  recipe: {
    ingredients: [
      { material: 'wheat-bran', massKg: 75 },
      { material: 'finished-compost', massKg: 4 },
    ],
    moistureFrac: 0.58,
    doseFrac: 0.01,
    depthM: 0.36,
    tempC: 25,
    cover: 'breathable',
    shadeFrac: 0.8,
  },
  given: { material: 'wheat-bran', depthM: 0.36, moistureFrac: 0.58, doseFrac: 0.01, cover: 'breathable' },
  climate: { ...mildClimate, meanC: 26, seasonK: 0, dayK: 6, frontK: 1, rhPct: 60, rainShare: 0.02 },
  probes: fourProbes(),
  happenings: [],
  tools: [...handTools, 'shade'],
  weights: { culture: 45, work: 25, water: 15, heat: 15, ending: 0 },
  example: [
    { afterH: 48, act: { kind: 'look-and-smell' } },
    { afterH: 48, act: { kind: 'spread', depthM: 0.18 } },
    { afterH: 66, act: { kind: 'turn' } },
    { afterH: 84, act: { kind: 'water', litres: 4 } },
  ],
  lesson:
    'A pile that has stood at 45 °C for a day in warm air is hours away from 50 °C. Spreading at once halves what heat it can keep; turning alone feeds it air and it comes back.',
};
