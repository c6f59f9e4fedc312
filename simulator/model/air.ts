/** The weather a pile stands in. */

/** Air outdoors at one moment, at the height of the pile. */
export interface Air {
  readonly tempC: number;
  readonly rhPct: number;
  readonly windMS: number;
  /** Sun on level ground [W m⁻²]. */
  readonly sunWM2: number;
  readonly rainMmH: number;
  /** Share of the sky under cloud [-]. */
  readonly cloudFrac: number;
}

/** The air at an instant [epoch ms]. The same instant always gives the same air. */
export type Weather = (atMs: number) => Air;

/** Air that never changes, for tests and for a room. */
export function steadyAir(air: Partial<Air> = {}): Weather {
  const still: Air = { tempC: 20, rhPct: 60, windMS: 0.2, sunWM2: 0, rainMmH: 0, cloudFrac: 1, ...air };
  return () => still;
}
