/** Air at a moment, as measured or foretold. */
export interface AirReading {
  readonly atMs: number;
  readonly tempC: number;
}
