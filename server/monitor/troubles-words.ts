/**
 * How many piles are in trouble, and which: for health, the heartbeat, and a notice to owners.
 */
import type { TroubledPile } from './pile/pile-port.ts';

const mostNamed = 5;

/** @example unjudgedWords(...) // => '2 of 16 piles are not watched: North bay, Shed'; undefined while all are */
export function unjudgedWords(troubles: readonly TroubledPile[], pileCount: number): string | undefined {
  const unjudged = troubles.filter(({ judged }) => !judged);
  if (unjudged.length === 0) return undefined;
  return `${counted(unjudged.length, pileCount)} not watched: ${named(unjudged)}`;
}

/** Watched, but with something of them missing or not kept. */
export function halfJudgedWords(troubles: readonly TroubledPile[], pileCount: number): string | undefined {
  const unkept = troubles.filter(({ code }) => code === 'not-kept');
  const missing = troubles.filter(({ judged, code }) => judged && code !== 'not-kept');
  const said = [
    unkept.length > 0 &&
      `what ${counted(unkept.length, pileCount).replace(/ (is|are)$/, '')} do cannot be kept: ${named(unkept)}`,
    missing.length > 0 &&
      `${counted(missing.length, pileCount)} watched without records that cannot be read: ${named(missing)}`,
  ].filter((part) => part !== false);
  return said.length === 0 ? undefined : said.join('; ');
}

function counted(count: number, all: number): string {
  return `${count} of ${all} ${all === 1 ? 'pile' : 'piles'} ${count === 1 ? 'is' : 'are'}`;
}

function named(troubles: readonly TroubledPile[]): string {
  const names = troubles.slice(0, mostNamed).map(({ name }) => name);
  const more = troubles.length - names.length;
  return more > 0 ? `${names.join(', ')} and ${more} more` : names.join(', ');
}
