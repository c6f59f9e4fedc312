/** The air as it reaches the pile, behind shed, shade and fan. */
import type { Shelter } from '../../shared/contracts/domain/batch.ts';
import { vapourDensityKgM3 } from '../../shared/water.ts';
import type { Air } from './air.ts';
import type { Pile, Shed } from './pile.ts';

interface ShedFacts {
  readonly windShare: number;
  readonly sunShare: number;
  readonly rainShare: number;
  /** How long the air inside needs to follow the air outside [h]. */
  readonly lagH: number;
}

/** Assumptions: a roof on posts keeps off sun and rain; shut doors still the air and even out day and night. */
const shedFacts: Record<Shed, ShedFacts> = {
  none: { windShare: 1, sunShare: 1, rainShare: 1, lagH: 0 },
  roof: { windShare: 0.6, sunShare: 0.05, rainShare: 0, lagH: 0 },
  closed: { windShare: 0.1, sunShare: 0, rainShare: 0, lagH: 6 },
};

/** As a grower would tell it. */
export const shelterOf: Record<Shed, Shelter> = { none: 'open', roof: 'roof', closed: 'indoors' };

/** The air at the pile, with the vapour it holds [kg m⁻³]. */
export interface AirAtPile extends Air {
  readonly vapourKgM3: number;
}

/** The air at the pile; moves the shed's own air on by `stepS`. */
export function airAtPile(pile: Pile, outdoors: Air, stepS: number): AirAtPile {
  const { windShare, sunShare, rainShare, lagH } = shedFacts[pile.shed];
  if (lagH === 0) pile.shedAirC = outdoors.tempC;
  else pile.shedAirC += (outdoors.tempC - pile.shedAirC) * -Math.expm1(-stepS / (lagH * 3600));
  const open = 1 - pile.shadeFrac;
  return {
    tempC: pile.shedAirC,
    rhPct: outdoors.rhPct,
    vapourKgM3: vapourDensityKgM3(pile.shedAirC, outdoors.rhPct),
    windMS: outdoors.windMS * windShare + pile.fanMS,
    sunWM2: outdoors.sunWM2 * sunShare * open,
    rainMmH: outdoors.rainMmH * rainShare,
    // Behind shade or a roof a pile sees leaves and boards at air temperature instead of a cold sky.
    cloudFrac: 1 - (1 - outdoors.cloudFrac) * open * (pile.shed === 'none' ? 1 : 0),
  };
}
