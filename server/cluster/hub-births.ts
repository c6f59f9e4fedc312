/**
 * A home automation hub came up. What is of no site is heard by one worker, so that one hears it: it asks whoever holds a
 * site to introduce the piles there anew.
 */
import type { FastifyBaseLogger } from 'fastify';
import type { Journal } from '../../shared/store/journal.ts';
import { randomId } from '../id-from-name.ts';
import type { PublishingChoice } from '../publish/publishing-choice.ts';
import { coalesced } from './coalesce.ts';

/** A hub that comes and goes quickly is answered once in so long, and after the last time [ms]; our own choice. */
const everyMs = 2_000;

export interface HubBirthsParts {
  readonly journal: Pick<Journal, 'commands' | 'sites'>;
  readonly log: FastifyBaseLogger;
  readonly publishing: Pick<PublishingChoice, 'hub'>;
}

export interface HubBirths {
  cameUp(): void;
  close(): Promise<void>;
}

export function hubBirths({ journal, log, publishing }: HubBirthsParts): HubBirths {
  const asking = coalesced(
    async () => {
      for (const { id: site } of await journal.sites.list()) {
        const command = { kind: 'introduce' } as const;
        await journal.commands.add({ id: randomId(), site, pileId: '', command, askedMs: Date.now() });
      }
    },
    everyMs,
    (error) => log.warn({ err: error }, 'a hub came up, and piles cannot be introduced anew; it is tried again'),
  );
  return {
    cameUp() {
      if (publishing.hub() !== undefined) asking.ask();
    },
    close: () => asking.close(),
  };
}
