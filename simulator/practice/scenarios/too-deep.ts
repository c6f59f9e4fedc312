import { message } from '../../../shared/messages/message.ts';
import { msPerHour } from '../../../shared/units.ts';
import { mildClimate } from '../../model/climate.ts';
import { fourProbes, handTools } from './common.ts';
import type { PracticeScenario } from './practice-scenario.ts';

const hours = 192;
const asked = { workFracMin: 0.75, aliveFracMin: 0.85 };

/** Right moisture, right starter, and no air below a hand's breadth. */
export const tooDeep: PracticeScenario = {
  id: 'too-deep',
  name: message('practice.name.too-deep'),
  story: message('practice.story.too-deep'),
  goal: {
    ...asked,
    says: message('practice.goal.too-deep', {
      workFrac: asked.workFracMin,
      lengthMs: hours * msPerHour,
      aliveFrac: asked.aliveFracMin,
    }),
  },
  stage: 'bran',
  hours,
  awayUntilH: 12,
  recipe: {
    ingredients: [{ material: 'rice-bran', massKg: 90 }],
    moistureFrac: 0.62,
    doseFrac: 0.006,
    depthM: 0.45,
    tempC: 20,
    cover: 'breathable',
    shadeFrac: 0.9,
    shed: 'roof',
  },
  given: { material: 'rice-bran', depthM: 0.45, moistureFrac: 0.6, doseFrac: 0.006, cover: 'breathable' },
  climate: { ...mildClimate, meanC: 19, seasonK: 0 },
  probes: fourProbes(),
  happenings: [],
  tools: handTools,
  weights: { culture: 30, work: 40, water: 15, heat: 15, ending: 0 },
  example: [
    { afterH: 13, act: { kind: 'look-and-smell' } },
    { afterH: 13, act: { kind: 'spread', depthM: 0.2 } },
    { afterH: 48, act: { kind: 'turn' } },
    { afterH: 72, act: { kind: 'turn' } },
    { afterH: 100, act: { kind: 'turn' } },
    { afterH: 130, act: { kind: 'turn' } },
  ],
  lesson: message('practice.lesson.too-deep'),
};
