/**
 * simulator/cli/truth-log.ts: writes down hourly what is really so in every pile.
 *
 * Takes:  piles as they are played.
 * Gives:  JSON lines.
 */

import { once } from 'node:events';
import { createWriteStream } from 'node:fs';
import type { PlayedPile } from '../farm/farm.ts';
import { pictureOf } from '../model/picture.ts';

export interface TruthLog {
  note(played: PlayedPile): void;
  close(): Promise<void>;
}

export function truthLog(path: string): TruthLog {
  const out = createWriteStream(path);
  const lastHour = new Map<PlayedPile, number>();
  return {
    note(played) {
      const hour = Math.floor((played.pile.atMs - played.setup.laidAtMs) / 3_600_000);
      if (lastHour.get(played) === hour) return;
      lastHour.set(played, hour);
      const { site, name } = played.setup;
      out.write(`${JSON.stringify({ site, pile: name, ...pictureOf(played.pile) })}\n`);
    },
    async close() {
      out.end();
      await once(out, 'finish');
    },
  };
}
