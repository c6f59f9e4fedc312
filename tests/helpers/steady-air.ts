import type { Air, Weather } from '../../simulator/model/air.ts';

/** Air that never changes. */
export function steadyAir(air: Partial<Air> = {}): Weather {
  const still: Air = { tempC: 20, rhPct: 60, windMS: 0.2, sunWM2: 0, rainMmH: 0, cloudFrac: 1, ...air };
  return () => still;
}
