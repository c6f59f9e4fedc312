import { message } from '../../../shared/messages/message.ts';
import { msPerHour } from '../../../shared/units.ts';
import { mildClimate } from '../../model/climate.ts';
import { fourProbes, handTools } from './common.ts';
import type { PracticeScenario } from './practice-scenario.ts';

const asked = { aliveFracMin: 0.9, workFracMin: 0.85, endedWithinH: 24 };

/** Nothing goes wrong. The only question is when it is done. */
export const whenToStop: PracticeScenario = {
  id: 'when-to-stop',
  name: message('practice.name.when-to-stop'),
  story: message('practice.story.when-to-stop'),
  goal: {
    ...asked,
    says: message('practice.goal.when-to-stop', {
      withinMs: asked.endedWithinH * msPerHour,
      workFrac: asked.workFracMin,
      aliveFrac: asked.aliveFracMin,
    }),
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
  lesson: message('practice.lesson.when-to-stop', { nearK: 5 }),
};
