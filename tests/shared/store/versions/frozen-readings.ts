/** The readings that every versions/readings-*.sql was given. */
import type { Reading } from '../../../../shared/reading.ts';
import { beginMs, someSeries } from '../arbitrary-readings.ts';

/** Two readings an hour of each series for eighteen hours; the files hold some flushed and some waiting. */
export const frozenReadings: readonly Reading[] = Array.from({ length: 36 }, (_, half) =>
  someSeries.map((series, place) => ({
    ...series,
    atMs: beginMs + half * 1_800_000,
    value: 20 + place + (half % 48) / 8,
  })),
).flat();
