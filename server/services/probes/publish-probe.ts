import type { Probe } from '../../../shared/contracts/probes.ts';
import type { LiveHub } from '../live/live-hub.ts';
import { type KnownProbe, type ProbeBook, probeView } from './probe-book.ts';

interface PublishProbeParts {
  readonly hub: LiveHub;
  readonly probes: Pick<ProbeBook, 'counts'>;
}

/** Live pages hear of a probe that a person changed. @returns The probe as it now stands. */
export function publishProbe({ hub, probes }: PublishProbeParts, known: KnownProbe): Probe {
  const view = probeView(known);
  hub.publish('probe', `${known.site}/${known.probe}`, view);
  hub.publish('probes', '', probes.counts);
  return view;
}
