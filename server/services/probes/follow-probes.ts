/** What ingest hears of probes, brought to the probe book, to open pages, and into the journal. */
import type { FastifyBaseLogger } from 'fastify';
import type { IngestOptions } from '../../../ingest/ingest.ts';
import type { Journal } from '../../../shared/store/journal.ts';
import type { LiveHub } from '../live/live-hub.ts';
import type { ProbeBook } from './probe-book.ts';
import { createProbeNews } from './probe-news.ts';
import { createStatusKeeper } from './status-keeper.ts';

export interface FollowParts {
  readonly probes: ProbeBook;
  readonly hub: LiveHub;
  readonly log: FastifyBaseLogger;
  /** Where a probe's status is kept; absent where another process keeps it. */
  readonly keepIn?: Journal;
}

type Followed = Pick<IngestOptions, 'calibrate' | 'admits' | 'onCommitted' | 'onStatus'> &
  Required<Pick<IngestOptions, 'onDevice'>>;

export function followProbes({ probes, hub, log, keepIn }: FollowParts): Followed {
  const news = createProbeNews(hub, probes);
  const statuses = keepIn && createStatusKeeper(keepIn, log);
  return {
    calibrate: (site, probe, quantity, value) => probes.calibrate(site, probe, quantity, value),
    admits: (site, probe) => probes.admits(site, probe),
    onCommitted(committed) {
      for (const reading of committed) news.changed(probes.record(reading));
    },
    onDevice(site, probe, facts) {
      if (!probes.admits(site, probe)) return;
      probes.of(site, probe).device = facts;
    },
    onStatus(site, probe, online, atMs) {
      const known = probes.of(site, probe);
      const isNews = known.online !== online; // retained, and sent again on each connection
      known.online = online;
      news.changed(known);
      if (isNews) statuses?.keep(site, probe, online, atMs);
    },
  };
}
