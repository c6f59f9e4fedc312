/** How many piles are in trouble, and which: for health, the heartbeat, and a notice to owners. */
import { type Message, message } from '../../shared/messages/message.ts';
import type { TroubledPile } from '../pile/pile-port.ts';

const mostNamed = 5;

/** @example unjudged(...) // => "2 of 16 piles are not watched: North bay, Shed"; undefined while all are */
export function unjudged(troubles: readonly TroubledPile[], pileCount: number): Message | undefined {
  const found = troubles.filter(({ judged }) => !judged);
  return found.length === 0 ? undefined : message('health.piles.unwatched', troubled(found, pileCount));
}

/** Watched, but with something of them missing or not kept. */
export function halfJudged(troubles: readonly TroubledPile[], pileCount: number): Message | undefined {
  const unkept = troubles.filter(({ code }) => code === 'not-kept');
  const missing = troubles.filter(({ judged, code }) => judged && code !== 'not-kept');
  return together([
    unkept.length > 0 ? message('health.piles.unkept', troubled(unkept, pileCount)) : undefined,
    missing.length > 0 ? message('health.piles.missing', troubled(missing, pileCount)) : undefined,
  ]);
}

/** Both where there are two. */
export function together(said: readonly (Message | undefined)[]): Message | undefined {
  return said.reduce((one, other) =>
    one === undefined || other === undefined
      ? (one ?? other)
      : message('health.piles.two', { onePart: one, otherPart: other }),
  );
}

function troubled(found: readonly TroubledPile[], pileCount: number) {
  const names = found.slice(0, mostNamed).map(({ name }) => name);
  const named = { pilesText: names.join(', '), moreCount: found.length - names.length };
  return { troubledCount: found.length, pileCount, pilesPart: message('health.piles.named', named) };
}
