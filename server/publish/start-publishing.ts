/** What is published of piles for programs, begun together. */
import type { FastifyBaseLogger } from 'fastify';
import type { Ingest } from '../../ingest/ingest.ts';
import type { Clock } from '../../shared/clock.ts';
import type { Config } from '../../shared/config.ts';
import type { PileMonitor } from '../monitor/pile-monitor.ts';
import type { PilePort } from '../pile/pile-port.ts';
import type { EntriesHeard } from './entries-heard.ts';
import { HubAnnouncer } from './hub-announcer.ts';
import { PileEvents } from './pile-events.ts';
import type { PublishingChoice } from './publishing-choice.ts';
import { StatePublisher } from './state-publisher.ts';

export interface PublishingParts {
  readonly config: Pick<Config, 'MQTT_ROOT' | 'PUBLIC_URL'>;
  readonly version: string;
  readonly clock: Clock;
  readonly log: FastifyBaseLogger;
  /** Piles that are watched here, which are ours to publish. */
  readonly watch: PileMonitor;
  /** All piles: people write of those as well that others watch. */
  readonly everywhere: Pick<PilePort, 'get'>;
  readonly ingest: Pick<Ingest, 'say' | 'health'>;
  readonly publishing: PublishingChoice;
  readonly entriesHeard: EntriesHeard;
}

export interface PilePublishing {
  readonly states: StatePublisher;
  readonly events: PileEvents;
  close(): Promise<void>;
}

export async function startPublishing(parts: PublishingParts): Promise<PilePublishing> {
  const { config, version, clock, log, watch, ingest, publishing: choice } = parts;
  const { MQTT_ROOT: root, PUBLIC_URL: publicUrl } = config;
  const events = startEvents(parts);
  const say: Ingest['say'] = (site, message) => ingest.say(site, message);
  const introductions = new HubAnnouncer({ root, version, publicUrl, choice, say });
  const states = new StatePublisher({ root, clock, log, watch, ingest, choice, events, introductions });
  await choice.start();
  states.start();
  return {
    states,
    events,
    async close() {
      await choice.close();
      states.close();
    },
  };
}

interface EventsParts extends Pick<PublishingParts, 'everywhere' | 'ingest' | 'publishing' | 'entriesHeard'> {
  readonly config: Pick<Config, 'MQTT_ROOT'>;
}

/** An entry is published by the process that kept it, which may serve pages alone. */
export function startEvents({ config, everywhere, ingest, publishing: choice, entriesHeard }: EventsParts): PileEvents {
  const say: Ingest['say'] = (site, message) => ingest.say(site, message);
  const events = new PileEvents({ root: config.MQTT_ROOT, choice, say });
  entriesHeard.follow((entry) => {
    const one = everywhere.get(entry.pileId);
    if (one !== undefined) events.entryWritten(one.pile, entry);
  });
  return events;
}
