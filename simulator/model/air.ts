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
