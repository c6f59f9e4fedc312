import { message } from '../../../shared/messages/message.ts';
import { mildClimate } from '../../model/climate.ts';
import { fourProbes, handTools, hotLayerC } from './common.ts';
import type { PracticeScenario } from './practice-scenario.ts';

const asked = { aliveFracMin: 0.8, workFracMin: 0.75 };

/** Two days later the second heat is already on its way. */
export const forgotten: PracticeScenario = {
  id: 'forgotten',
  name: message('practice.name.forgotten'),
  story: message('practice.story.forgotten'),
  goal: {
    ...asked,
    says: message('practice.goal.forgotten', { aliveFrac: asked.aliveFracMin, workFrac: asked.workFracMin }),
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
  lesson: message('practice.lesson.forgotten', { plateauC: 45, hotC: hotLayerC }),
};
