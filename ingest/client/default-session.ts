/**
 * The session that hears what no site's own session does: sites nobody has heard of, and foreign topics. The session of a
 * single server, on every topic.
 */
import type { Sink, SourceContext } from '../commit/inbound-source.ts';
import { airAheadFilter } from '../decode/topic.ts';
import { matchFilter } from '../mapping/topic-filter.ts';
import { type OutsideSession, type OutsideTicket, openOutsideBroker } from './outside-broker.ts';
import type { OutsideBrokerOptions } from './outside-options.ts';

export interface DefaultSessionFacts {
  /** A site spoke that nobody has heard of. */
  unknownSite(site: string): void;
  /** The barrier of a site came through. */
  barrier(site: string, text: string): void;
}

interface DefaultSessionParts {
  readonly options: OutsideBrokerOptions;
  readonly context: SourceContext;
  readonly sink: Sink<OutsideTicket>;
  readonly facts: DefaultSessionFacts;
  mayConnect(): boolean;
  /** Whether a site's own session hears all of it. */
  isHeard(site: string): boolean;
  /** Sites that `unknownSite` was called for; kept by the caller, as this session may come again. */
  readonly unknown: Set<string>;
}

/** On what topic the barrier of each site is published into the default session. */
export const barrierPrefix = ({ clientId }: Pick<OutsideBrokerOptions, 'clientId'>): string => `${clientId}-heard/`;

export function openDefaultSession(parts: DefaultSessionParts): OutsideSession {
  const { options, context, facts, mayConnect } = parts;
  const prefix = barrierPrefix(options);
  return openOutsideBroker(
    {
      ...options,
      mayConnect,
      barriers: { filter: `${prefix}+`, heard: (topic, text) => facts.barrier(topic.slice(prefix.length), text) },
    },
    context,
    defaultSessionSink(parts),
  );
}

/** Hears everything, keeps what no site's own session does. */
function defaultSessionSink({ context, sink, facts, isHeard, unknown }: DefaultSessionParts): Sink<OutsideTicket> {
  const { root } = context;
  const airAhead = airAheadFilter(root);
  return {
    ...sink,
    take(message, ticket) {
      const [first, site = ''] = message.topic.split('/', 2);
      if (first !== root) return sink.take(message, ticket);
      // No session of a site hears what is foretold of it.
      if (isHeard(site) && matchFilter(airAhead, message.topic) === undefined) {
        sink.pass(ticket);
        return 0;
      }
      const readings = sink.take(message, ticket);
      // A name of which nothing is kept is no site.
      if (readings > 0 && !unknown.has(site)) {
        unknown.add(site);
        facts.unknownSite(site);
      }
      return readings;
    },
  };
}
