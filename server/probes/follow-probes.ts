/**
 * server/probes/follow-probes.ts: what ingest hears of probes, brought to the probe book, to open pages, and into the journal.
 */
import type { FastifyBaseLogger } from 'fastify';
import type { IngestOptions } from '../../ingest/start-ingest.ts';
import type { Journal } from '../../shared/store/journal.ts';
import type { LiveHub } from '../live/live-hub.ts';
import { type ProbeBook, probeView } from './probe-book.ts';

export interface FollowParts {
  readonly probes: ProbeBook;
  readonly hub: LiveHub;
  readonly log: FastifyBaseLogger;
  /** Where a probe's status is kept; absent where another process keeps it. */
  readonly keepIn?: Journal;
}

type Followed = Pick<IngestOptions, 'calibrate' | 'onCommitted' | 'onStatus'>;

export function followProbes({ probes, hub, log, keepIn }: FollowParts): Followed {
  return {
    calibrate: (site, probe, quantity, value) => probes.calibrate(site, probe, quantity, value),
    onCommitted(committed) {
      for (const reading of committed) {
        const known = probes.record(reading);
        if (hub.listenerCount > 0) hub.publishLater('probe', `${known.site}/${known.probe}`, () => probeView(known));
      }
    },
    onStatus(site, probe, online, atMs) {
      const known = probes.of(site, probe);
      const isNews = known.online !== online; // retained, and told again on each connection
      known.online = online;
      hub.publish('probe', `${site}/${probe}`, probeView(known));
      if (!isNews) return;
      keepIn?.probes
        .setOnline(site, probe, online, atMs)
        .catch((error) => log.error({ err: error, site, probe }, 'status not kept'));
    },
  };
}
