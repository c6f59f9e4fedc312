import { message } from '../../../shared/messages/message.ts';
import { mildClimate } from '../../model/climate.ts';
import { fourProbes, handTools, hotLayerC, usualWeights } from './common.ts';
import type { PracticeScenario } from './practice-scenario.ts';

const asked = { aliveFracMin: 0.85, hoursAbove50Max: 8, workFracMin: 0.75 };

/** The one number everybody looks at comes from beside the pile. */
export const probeOut: PracticeScenario = {
  id: 'probe-out',
  name: message('practice.name.probe-out'),
  story: message('practice.story.probe-out'),
  goal: {
    ...asked,
    says: message('practice.goal.probe-out', {
      aliveFrac: asked.aliveFracMin,
      hotHours: asked.hoursAbove50Max,
      hotC: hotLayerC,
      workFrac: asked.workFracMin,
    }),
  },
  stage: 'bran',
  hours: 132,
  awayUntilH: 40,
  recipe: {
    ingredients: [
      { material: 'wheat-bran', massKg: 70 },
      { material: 'finished-compost', massKg: 3 },
    ],
    moistureFrac: 0.6,
    doseFrac: 0.008,
    depthM: 0.33,
    tempC: 24,
    cover: 'breathable',
    shadeFrac: 0.8,
  },
  given: { material: 'wheat-bran', depthM: 0.33, moistureFrac: 0.6, doseFrac: 0.008, cover: 'breathable' },
  climate: { ...mildClimate, meanC: 26, seasonK: 0, dayK: 5, frontK: 1, rhPct: 60, rainShare: 0 },
  probes: fourProbes([{ kind: 'pulled-out', fromH: 36 }]),
  happenings: [],
  tools: ['reseat-probe', ...handTools, 'shade'],
  weights: usualWeights,
  example: [
    { afterH: 41, act: { kind: 'reseat-probe', probe: 'core' } },
    { afterH: 42, act: { kind: 'spread', depthM: 0.19 } },
    { afterH: 66, act: { kind: 'turn' } },
  ],
  lesson: message('practice.lesson.probe-out', { dropK: 10 }),
};
