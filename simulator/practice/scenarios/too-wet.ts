import { message } from '../../../shared/messages/message.ts';
import { msPerHour } from '../../../shared/units.ts';
import { mildClimate } from '../../model/climate.ts';
import { fourProbes, usualWeights } from './common.ts';
import type { PracticeScenario } from './practice-scenario.ts';

const hours = 168;
const asked = { workFracMin: 0.6, moistureFracMax: 0.66, aliveFracMin: 0.8 };

/** Somebody was generous with the hose. */
export const tooWet: PracticeScenario = {
  id: 'too-wet',
  name: message('practice.name.too-wet'),
  story: message('practice.story.too-wet'),
  goal: {
    ...asked,
    says: message('practice.goal.too-wet', {
      workFrac: asked.workFracMin,
      lengthMs: hours * msPerHour,
      moistureFrac: asked.moistureFracMax,
      aliveFrac: asked.aliveFracMin,
    }),
  },
  stage: 'bran',
  hours,
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
  lesson: message('practice.lesson.too-wet'),
};
