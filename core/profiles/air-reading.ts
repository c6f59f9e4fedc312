/** Air at a moment, as measured or foretold. */
export interface AirReading {
  readonly atMs: number;
  readonly tempC: number;
}

/** The air of a site as somebody foretold it. */
export interface AirAhead {
  /** Who foretold it, as it is shown. */
  readonly source: string;
  readonly issuedMs: number;
  /** Oldest first; hours that have gone by are those of issues before. */
  readonly points: readonly AirReading[];
}
