/**
 * The way in. Joins a broker, the decoders and the commit queue. It never acknowledges a message before its readings
 * are kept, and throws over nothing that comes in.
 */
import type { DefaultSessionFacts } from './client/default-session.ts';
import type { OutsideTicket } from './client/outside-broker.ts';
import type { OutsideBrokerOptions } from './client/outside-options.ts';
import type { SiteSessions } from './client/site-sessions.ts';
import type { Sink, SourceContext } from './commit/inbound-source.ts';
import type { Ingest, IngestOptions, SiteIngest } from './ingest.ts';
import { joinIngest } from './join-ingest.ts';

/** @throws {ConfigError} When the port is taken or the address cannot be used. */
export async function startIngest(options: IngestOptions): Promise<Ingest> {
  const { source } = options;
  // A broker's own code and a client's are large, and a server needs one of them.
  if (source.kind === 'embedded') {
    const { openEmbeddedBroker } = await import('./embedded-broker/embedded-broker.ts');
    return joinIngest(options, (context, sink) => openEmbeddedBroker(source, context, sink));
  }
  const { openOutsideBroker } = await import('./client/outside-broker.ts');
  return joinIngest(options, async (context, sink) => openOutsideBroker(source, context, sink));
}

/** The way in of one worker among several: it hears the sites it holds. @throws {ConfigError} */
export async function startSiteIngest(
  options: Omit<IngestOptions, 'source'>,
  source: OutsideBrokerOptions,
  defaultSession: DefaultSessionFacts,
): Promise<SiteIngest> {
  const { SiteSessions: Sessions } = await import('./client/site-sessions.ts');
  let sites: SiteSessions | undefined;
  const open = async (context: SourceContext, sink: Sink<OutsideTicket>) => {
    sites = new Sessions(source, context, sink, defaultSession);
    return sites;
  };
  // Of each site they are recalled when it is held.
  const ingest = await joinIngest(options, open, []);
  if (!sites) throw new Error('Cannot hold sites as the way in must be open');
  return { ...ingest, sites };
}
