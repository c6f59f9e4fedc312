import { mildClimate } from '../../model/climate.ts';
import { fourProbes, handTools } from './common.ts';
import type { PracticeScenario } from './practice-scenario.ts';

/** Nothing goes wrong. The only question is when it is done. */
export const whenToStop: PracticeScenario = {
  id: 'when-to-stop',
  name: 'A perfect batch, and when to stop',
  story:
    'Right bran, right damp, right depth, mild weather. It will warm, stay warm and cool. Your part is to see when it is done, and to end it then.',
  goal: {
    says: 'End it within a day of its being done: heat come and gone, no reheating after a turn, white all through.',
    aliveFracMin: 0.9,
    workFracMin: 0.85,
    endedWithinH: 24,
  },
  stage: 'bran',
  hours: 240,
  awayUntilH: 0,
  recipe: {
    ingredients: [{ material: 'wheat-bran', massKg: 50 }],
    moistureFrac: 0.61,
    doseFrac: 0.006,
    depthM: 0.22,
    tempC: 19,
    cover: 'breathable',
    shadeFrac: 0.9,
  },
  given: { material: 'wheat-bran', depthM: 0.22, moistureFrac: 0.61, doseFrac: 0.006, cover: 'breathable' },
  climate: { ...mildClimate, meanC: 19, seasonK: 0, rainShare: 0 },
  probes: fourProbes(),
  happenings: [],
  tools: handTools,
  weights: { culture: 20, work: 20, water: 10, heat: 10, ending: 40 },
  example: [
    { afterH: 60, act: { kind: 'turn' } },
    { afterH: 96, act: { kind: 'turn' } },
    { afterH: 108, act: { kind: 'look-and-smell' } },
    { afterH: 110, act: { kind: 'finish' } },
  ],
  lesson:
    'Ready is when heat has come, peaked and fallen to within about 5 °C of the air, a turn brings no heat back, and a person has seen white all through and smelt earth. A probe alone cannot say it, and waiting longer only dries it.',
};
