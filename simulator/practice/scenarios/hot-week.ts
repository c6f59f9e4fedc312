import { message } from '../../../shared/messages/message.ts';
import { mildClimate } from '../../model/climate.ts';
import { fourProbes, handTools, hotLayerC, usualWeights } from './common.ts';
import type { PracticeScenario } from './practice-scenario.ts';

const asked = { aliveFracMin: 0.85, hoursAbove50Max: 6, workFracMin: 0.8 };

/** The bed that was right in spring is too deep in a hot week. */
export const hotWeek: PracticeScenario = {
  id: 'hot-week',
  name: message('practice.name.hot-week'),
  story: message('practice.story.hot-week'),
  goal: {
    ...asked,
    says: message('practice.goal.hot-week', {
      aliveFrac: asked.aliveFracMin,
      hotHours: asked.hoursAbove50Max,
      hotC: hotLayerC,
      workFrac: asked.workFracMin,
    }),
  },
  stage: 'bran',
  hours: 144,
  awayUntilH: 0,
  recipe: {
    ingredients: [{ material: 'wheat-bran', massKg: 70 }],
    moistureFrac: 0.6,
    doseFrac: 0.008,
    depthM: 0.34,
    tempC: 26,
    cover: 'breathable',
    shadeFrac: 0.5,
  },
  given: { material: 'wheat-bran', depthM: 0.34, moistureFrac: 0.6, doseFrac: 0.008, cover: 'breathable' },
  climate: { ...mildClimate, meanC: 29, seasonK: 0, dayK: 7, frontK: 1, rhPct: 55, rainShare: 0 },
  probes: fourProbes(),
  happenings: [],
  tools: [...handTools, 'shade'],
  weights: usualWeights,
  example: [
    { afterH: 20, act: { kind: 'shade' } },
    { afterH: 30, act: { kind: 'spread', depthM: 0.2 } },
    { afterH: 56, act: { kind: 'turn' } },
    { afterH: 60, act: { kind: 'water', litres: 4 } },
  ],
  lesson: message('practice.lesson.hot-week', { plateauC: 45, hotC: hotLayerC }),
};
