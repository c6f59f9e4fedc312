/**
 * The expected core temperature of a batch, as a band over an even grid of times. It never reaches beyond the grid.
 */
import type { Message } from '../../shared/messages/message.ts';
import type { AirAheadUsed } from './air-ahead.ts';

export interface ExpectedBand {
  readonly fromMs: number;
  readonly stepMs: number;
  /** One value per step, the first at `fromMs` [°C]. */
  readonly p10C: ArrayLike<number>;
  readonly p50C: ArrayLike<number>;
  readonly p90C: ArrayLike<number>;
  /** Where the band comes from, as it is shown to the grower. */
  readonly origin: Message;
  /** The air it was worked out for, on the same grid: as measured, and from there on as assumed [°C]. */
  readonly airC?: ArrayLike<number>;
  /** The foretold air that `airC` goes on with; absent where there was none to use. */
  readonly airAhead?: AirAheadUsed;
  /** The ensemble's own curves, for the forecast; left out where only the band matters. */
  readonly members?: MemberCurves | PackedMembers;
  /** What was blended into it; left out where only the model speaks. */
  readonly sources?: BandSources;
}

/** A band as it was just worked out. */
export interface WorkedBand extends ExpectedBand {
  readonly p10C: number[];
  readonly p50C: number[];
  readonly p90C: number[];
  readonly members?: MemberCurves;
}

export interface BandLines {
  /** On the band's own grid; NaN where this source says nothing [°C]. */
  readonly p10C: ArrayLike<number>;
  readonly p50C: ArrayLike<number>;
  readonly p90C: ArrayLike<number>;
  readonly origin: Message;
}

interface BandSources {
  readonly model: BandLines;
  readonly own: BandLines;
  /** The most batches of the grower's own that speak at any age. */
  readonly ownBatches: number;
}

/** Core temperature of each member, member after member, hour by hour. */
export interface MemberCurves {
  readonly count: number;
  /** Hours kept of each member, the first of them this many after the start of the batch. */
  readonly steps: number;
  readonly firstHour: number;
  /** In hundredths of a degree: finer than any probe, and thousands of piles have two hundred members each [0.01 °C]. */
  readonly coreCentiC: Int16Array;
}

/** The same as a pile keeps them from one hour to the next (packed-members.ts). */
export interface PackedMembers extends Omit<MemberCurves, 'coreCentiC'> {
  readonly packed: Uint8Array;
}

export interface BandPoint {
  readonly p10C: number;
  readonly p50C: number;
  readonly p90C: number;
}

/** The band at an instant, straight between grid points; undefined outside the grid. */
export function bandAt(band: ExpectedBand, atMs: number): BandPoint | undefined {
  const index = (atMs - band.fromMs) / band.stepMs;
  const left = Math.floor(index);
  const share = index - left;
  const p10C = between(band.p10C, left, share);
  const p50C = between(band.p50C, left, share);
  const p90C = between(band.p90C, left, share);
  return p10C === undefined || p50C === undefined || p90C === undefined ? undefined : { p10C, p50C, p90C };
}

function between(values: ArrayLike<number>, left: number, share: number): number | undefined {
  const from = values[left];
  if (from === undefined || share === 0) return from;
  const to = values[left + 1];
  return to === undefined ? undefined : from + share * (to - from);
}
