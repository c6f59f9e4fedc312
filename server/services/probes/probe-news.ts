/**
 * Tells open pages of probes as they speak: each by itself while few do; of more, only how many there are, and that
 * what a page shows of them is to be fetched again. So a page is sent as much by a farm of 50,000 probes as by fifty.
 */
import type { LiveHub } from '../live/live-hub.ts';
import { type KnownProbe, type ProbeBook, probeView } from './probe-book.ts';

/** That are reported by themselves at a time; pages are sent news four times a second. */
const mostAtOnce = 50;

export interface ProbeNews {
  changed(known: KnownProbe): void;
}

export function createProbeNews(hub: LiveHub, probes: ProbeBook): ProbeNews {
  let sentAll = -1;
  const sendCounts = () => {
    sentAll = probes.counts.all;
    hub.publishLater('probes', '', () => probes.counts);
  };

  return {
    changed(known) {
      if (hub.listenerCount === 0) return;
      if (probes.counts.all !== sentAll) sendCounts();
      hub.publishSome('probe', `${known.site}/${known.probe}`, () => probeView(known), mostAtOnce, sendCounts);
    },
  };
}
