/**
 * Under which name readings taken by hand are kept: a series per pile and place, with a colon in its name, which no probe's
 * name may have. A correction begins the series anew under the next edition, for stores never change what they keep.
 */
import { type Position, positions } from './names.ts';

const prefix = 'hand:';

/** @example handProbe('bran-1', 'core', 2) // => "hand:bran-1:core:2" */
export function handProbe(pileId: string, position: Position, edition: number): string {
  return `${prefix}${pileId}:${position}:${edition}`;
}

export function isHandProbe(probe: string): boolean {
  return probe.startsWith(prefix);
}

/** Whose readings they are; undefined for the name of a probe. */
export function handSeries(probe: string): { pileId: string; position: Position; edition: number } | undefined {
  if (!isHandProbe(probe)) return undefined;
  const [pileId = '', place, edition] = probe.slice(prefix.length).split(':');
  const position = positions.find((one) => one === place);
  return position && { pileId, position, edition: Number(edition) };
}

/**
 * Until when a hand's claim reaches, the year 9999 [epoch ms]. It has an end, so that it holds the place against no probe: a
 * place has one probe at most, and a hand beside it.
 */
export const handClaimEndMs = Date.UTC(9999, 11, 31);
