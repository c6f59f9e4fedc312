import { message } from '../../../shared/messages/message.ts';
import { mildClimate } from '../../model/climate.ts';
import { fourProbes } from './common.ts';
import type { PracticeScenario } from './practice-scenario.ts';

const asked = { moistureFracMin: 0.5, workFracMin: 0.75, aliveFracMin: 0.85 };

/** A fan dries an open bed; humidity inside says 100 % until it is far too late. */
export const fanLeftOn: PracticeScenario = {
  id: 'fan-left-on',
  name: message('practice.name.fan-left-on'),
  story: message('practice.story.fan-left-on', { humidityPct: 100 }),
  goal: {
    ...asked,
    says: message('practice.goal.fan-left-on', {
      moistureFrac: asked.moistureFracMin,
      workFrac: asked.workFracMin,
      aliveFrac: asked.aliveFracMin,
    }),
  },
  stage: 'bran',
  hours: 168,
  awayUntilH: 0,
  recipe: {
    ingredients: [{ material: 'wheat-bran', massKg: 40 }],
    moistureFrac: 0.54,
    doseFrac: 0.004,
    depthM: 0.13,
    tempC: 19,
    cover: 'open',
    shed: 'roof',
    shadeFrac: 1,
    fanMS: 5,
  },
  given: { material: 'wheat-bran', depthM: 0.13, moistureFrac: 0.54, doseFrac: 0.004, cover: 'open' },
  climate: { ...mildClimate, meanC: 25, seasonK: 0, rhPct: 32, rainShare: 0 },
  probes: fourProbes(),
  happenings: [],
  tools: ['squeeze', 'look-and-smell', 'fan-off', 'water', 'turn', 'cover', 'uncover', 'spread', 'heap', 'finish'],
  weights: { culture: 20, work: 25, water: 45, heat: 10, ending: 0 },
  example: [
    { afterH: 12, act: { kind: 'squeeze' } },
    { afterH: 12, act: { kind: 'fan-off' } },
    { afterH: 12, act: { kind: 'water', litres: 9 } },
    { afterH: 12, act: { kind: 'turn' } },
    { afterH: 13, act: { kind: 'cover', cover: 'breathable' } },
    { afterH: 72, act: { kind: 'water', litres: 4 } },
    { afterH: 72, act: { kind: 'turn' } },
  ],
  lesson: message('practice.lesson.fan-left-on'),
};
