import { mildClimate } from '../../model/climate.ts';
import { fourProbes, handTools, usualWeights } from './common.ts';
import type { PracticeScenario } from './practice-scenario.ts';

/** The one number everybody looks at comes from beside the pile. */
export const probeOut: PracticeScenario = {
  id: 'probe-out',
  name: 'Probe pulled out',
  story:
    'A dog has been at the bed, it seems. The core says it cooled down within minutes, and since then it has gone with the air. Is that a stall, or something else?',
  goal: {
    says: 'Find out what is really so, and keep 85 % of the culture alive with no more than 8 h above 50 °C.',
    aliveFracMin: 0.85,
    hoursAbove50Max: 8,
    workFracMin: 0.75,
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
  lesson:
    'Bran does not cool by ten degrees in minutes. A core that follows the air, while top and base do not, is a probe in the air. Put it back before deciding anything; heaping up a "stalled" pile that is really hot loses it.',
};
