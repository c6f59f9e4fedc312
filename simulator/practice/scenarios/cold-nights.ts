import { message } from '../../../shared/messages/message.ts';
import { msPerHour } from '../../../shared/units.ts';
import { mildClimate } from '../../model/climate.ts';
import { fourProbes, handTools, usualWeights } from './common.ts';
import type { PracticeScenario } from './practice-scenario.ts';

const hours = 192;
const asked = { workFracMin: 0.7, aliveFracMin: 0.85, moistureFracMin: 0.5 };

/** A thin bed in autumn that cannot keep its own warmth. */
export const coldNights: PracticeScenario = {
  id: 'cold-nights',
  name: message('practice.name.cold-nights'),
  story: message('practice.story.cold-nights'),
  goal: {
    ...asked,
    says: message('practice.goal.cold-nights', {
      workFrac: asked.workFracMin,
      aliveFrac: asked.aliveFracMin,
      moistureFrac: asked.moistureFracMin,
      lengthMs: hours * msPerHour,
    }),
  },
  stage: 'bran',
  hours,
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
  lesson: message('practice.lesson.cold-nights'),
};
