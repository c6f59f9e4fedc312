/**
 * One lasting session at the broker for each site, held by whoever watches the site.
 *
 * Sites nobody has heard of have no session yet. They, and foreign topics, are heard by the default session: the one that a
 * single server uses, on every topic. It keeps readings of a site until a mark, published into it once the site's own
 * session stands, has come through: everything before the mark was taken here, everything after it waits there. It
 * never loses what comes while a site changes hands: it waits in the site's session, whose client id goes with the
 * site. The broker ends the former holder's connection when the next one connects (MQTT 5 section 3.1.4) and delivers
 * again what was not acknowledged (section 4.4).
 */

import type { Sink, Source, SourceContext, SourceHealth } from '../commit/inbound-source.ts';
import { airAheadFilter } from '../decode/topic.ts';
import { matchFilter } from '../mapping/topic-filter.ts';
import type { Delivery } from './deferred-acks.ts';
import { type OutsideBrokerOptions, type OutsideTicket, openOutsideBroker } from './outside-broker.ts';

/** Stands for the default session among the sites; no site can be called that. */
export const defaultSession = '+';

export interface SiteSessions extends Source<OutsideTicket> {
  hold(site: string, told: SessionView): void;
  /** Takes nothing more of a site; what was taken is still acknowledged. */
  pauseSite(site: string): Promise<void>;
  letGo(site: string): Promise<void>;
  /** Sites whose own session hears all: the default session leaves these alone. */
  setHeard(sites: Iterable<string>): void;
  /** Sends a site's mark once more: the default session had no session yet, or the mark was lost with it. */
  barrierAgain(site: string, text: string): void;
  /** The lease was confirmed: what was not allowed to connect may. */
  confirm(site: string): void;
}

interface SessionView {
  /** Whether it is still ours, as far as this process knows. */
  mayConnect(): boolean;
  /** The site's session stands. @returns the mark to send through the default session; undefined when none is needed. */
  stands?(hadBefore: boolean): Promise<string | undefined>;
}

export interface DefaultSessionFacts {
  /** A site spoke that nobody has heard of. */
  unknownSite(site: string): void;
  /** The mark of a site came through. */
  mark(site: string, text: string): void;
}

type Session = ReturnType<typeof openOutsideBroker>;

export function openSiteSessions(
  options: OutsideBrokerOptions,
  context: SourceContext,
  sink: Sink<OutsideTicket>,
  told: DefaultSessionFacts,
): SiteSessions {
  const { root, log } = context;
  const sessions = new Map<string, Session>();
  const heard = new Set<string>();
  const unknown = new Set<string>();
  const barrierPrefix = `${options.clientId}-heard/`;
  let foreign: Parameters<Session['setForeign']>[0] = [];
  let paused = false;

  /** Hears everything, keeps what no site's own session does. */
  const defaultSessionSink: Sink<OutsideTicket> = {
    ...sink,
    take(message, ticket) {
      const [first, site = ''] = message.topic.split('/', 2);
      if (first !== root) return sink.take(message, ticket);
      // No session of a site hears what is foretold of it.
      if (heard.has(site) && matchFilter(airAheadFilter(root), message.topic) === undefined) {
        sink.pass(ticket);
        return 0;
      }
      const readings = sink.take(message, ticket);
      // A name of which nothing is kept is no site.
      if (readings > 0 && !unknown.has(site)) {
        unknown.add(site);
        told.unknownSite(site);
      }
      return readings;
    },
  };

  const openDefaultSession = (mayConnect: () => boolean): Session => {
    const session = openOutsideBroker(
      {
        ...options,
        mayConnect,
        marks: {
          filter: `${barrierPrefix}+`,
          heard: (topic, text) => told.mark(topic.slice(barrierPrefix.length), text),
        },
      },
      context,
      defaultSessionSink,
    );
    session.setForeign(foreign);
    return session;
  };

  const openSite = (site: string, { mayConnect, stands }: SessionView): Session => {
    const session: Session = openOutsideBroker(
      {
        ...options,
        clientId: `${options.clientId}-site-${site}`,
        rootFilter: `${root}/${site}/+/+`,
        mayConnect,
        onStanding: (hadBefore) => {
          void stands?.(hadBefore).then((mark) => {
            if (mark !== undefined) session.publish(`${barrierPrefix}${site}`, mark);
          });
        },
      },
      context,
      sink,
    );
    return session;
  };

  return {
    url: options.url,
    acknowledge: (tickets) => acknowledgeAll(tickets, sessions.values()),
    health: () => worst([...sessions.values()].map((session) => session.health())),
    setForeign(next) {
      foreign = next;
      sessions.get(defaultSession)?.setForeign(next);
    },
    async listen(filter, forMs) {
      await [...sessions.values()][0]?.listen(filter, forMs);
    },
    hold(site, sessionView) {
      if (paused || sessions.has(site)) return;
      sessions.set(
        site,
        site === defaultSession ? openDefaultSession(sessionView.mayConnect) : openSite(site, sessionView),
      );
    },
    async pauseSite(site) {
      await sessions.get(site)?.pause();
    },
    async letGo(site) {
      const session = sessions.get(site);
      sessions.delete(site);
      await session?.close();
      log.info({ site }, 'let go of a site');
    },
    setHeard(sites) {
      heard.clear();
      for (const site of sites) heard.add(site);
    },
    keep: (topic, text) => sessions.get(topic.split('/')[1] ?? '')?.keep(topic, text),
    barrierAgain: (site, text) => sessions.get(site)?.publish(`${barrierPrefix}${site}`, text),
    confirm: (site) => sessions.get(site)?.confirm(),
    async pause() {
      paused = true;
      await Promise.all([...sessions.values()].map((session) => session.pause()));
    },
    async close() {
      await Promise.all([...sessions.values()].map((session) => session.close()));
    },
  };
}

/** A delivery belongs to the connection it came on; each session picks its own. */
function acknowledgeAll(tickets: readonly OutsideTicket[], sessions: Iterable<Session>): void {
  const byLine = new Map<Delivery['stream'], Delivery[]>();
  for (const ticket of tickets) {
    if (ticket === undefined) continue;
    const line = byLine.get(ticket.stream);
    if (line) line.push(ticket);
    else byLine.set(ticket.stream, [ticket]);
  }
  for (const session of sessions) {
    const own = byLine.get(session.line());
    if (own) session.acknowledge(own);
  }
}

function worst(all: readonly SourceHealth[]): SourceHealth {
  const bad = all.find(({ state }) => state === 'down') ?? all.find(({ state }) => state === 'degraded');
  return bad ?? all[0] ?? { state: 'ok', detail: 'No site is held yet' };
}
