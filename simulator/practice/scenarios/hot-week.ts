import { mildClimate } from '../../model/climate.ts';
import { fourProbes, handTools, usualWeights } from './common.ts';
import type { PracticeScenario } from './practice-scenario.ts';

/** The bed that was right in spring is too deep in a hot week. */
export const hotWeek: PracticeScenario = {
  id: 'hot-week',
  name: 'A hot week',
  story:
    'You laid the bed as deep as in spring, and now a hot week has come. The first heat is normal. What comes on the third day is not.',
  goal: {
    says: 'Keep 85 % of the culture alive: no more than 6 h with any layer above 50 °C, and the work done.',
    aliveFracMin: 0.85,
    hoursAbove50Max: 6,
    workFracMin: 0.8,
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
  lesson:
    'A first plateau at about 45 °C is the wanted culture braking itself. If it stays there for a day in warm air, other microbes take over and carry it past 50 °C within hours. Spread it while it is still at the plateau: later you only save what is left.',
};
