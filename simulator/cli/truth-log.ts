/**
 * What is really so in every pile, as JSON lines: `"kind":"hour"` with what a pile looks like inside, and at the end one
 * `"kind":"pile"` for each, with the hours at which its troubles began and the faults of its probes.
 */
import { once } from 'node:events';
import { createWriteStream } from 'node:fs';
import type { PlayedPile } from '../farm/farm.ts';
import { followTruth } from '../farm/pile-truth.ts';
import { pictureOf } from '../model/picture.ts';

export interface TruthLog {
  note(played: PlayedPile): void;
  handled(played: PlayedPile): void;
  close(): Promise<void>;
}

export function truthLog(path: string): TruthLog {
  const out = createWriteStream(path);
  const followed = new Map<PlayedPile, { follower: ReturnType<typeof followTruth>; hour: number }>();
  const entryOf = (played: PlayedPile) => {
    const known = followed.get(played);
    if (known !== undefined) return known;
    const made = { follower: followTruth(played), hour: Number.NaN };
    followed.set(played, made);
    return made;
  };
  return {
    note(played) {
      const entry = entryOf(played);
      entry.follower.note();
      const hour = Math.floor((played.pile.atMs - played.setup.laidAtMs) / 3_600_000);
      if (entry.hour === hour) return;
      entry.hour = hour;
      const { site, name } = played.setup;
      out.write(`${JSON.stringify({ kind: 'hour', site, pile: name, ...pictureOf(played.pile) })}\n`);
    },
    handled(played) {
      entryOf(played).follower.handled();
    },
    async close() {
      for (const { follower } of followed.values())
        out.write(`${JSON.stringify({ kind: 'pile', ...follower.truth })}\n`);
      out.end();
      await once(out, 'finish');
    },
  };
}
