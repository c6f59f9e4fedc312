/**
 * One lasting session at the broker for each site, held by whoever watches the site.
 *
 * Sites nobody has heard of have no session yet. They, and foreign topics, are heard by the default session: the one that a
 * single server uses, on every topic. It keeps readings of a site until a barrier, published into it once the site's own
 * session stands, has come through: everything before the barrier was taken here, everything after it waits there. It
 * never loses what comes while a site changes hands: it waits in the site's session, whose client id goes with the
 * site. The broker ends the former holder's connection when the next one connects (MQTT 5 section 3.1.4) and delivers
 * again what was not acknowledged (section 4.4).
 */

import { message } from '../../shared/messages/message.ts';
import { partHealth } from '../../shared/part-health.ts';
import type { ForeignFilter, Outgoing, Sink, Source, SourceContext, SourceHealth } from '../commit/inbound-source.ts';
import { barrierPrefix, type DefaultSessionFacts, openDefaultSession } from './default-session.ts';
import type { Delivery } from './deferred-acks.ts';
import { type OutsideSession, type OutsideTicket, openOutsideBroker } from './outside-broker.ts';
import type { OutsideBrokerOptions } from './outside-options.ts';

/** Stands for the default session among the sites; no site can be called that. */
export const defaultSession = '+';

interface SessionView {
  /** Whether it is still ours, as far as this process knows. */
  mayConnect(): boolean;
  /** The site's session stands. @returns the barrier to send through the default session; undefined when none is needed. */
  stands?(hadBefore: boolean): Promise<string | undefined>;
}

export class SiteSessions implements Source<OutsideTicket> {
  readonly url: string;
  readonly #options: OutsideBrokerOptions;
  readonly #context: SourceContext;
  readonly #sink: Sink<OutsideTicket>;
  readonly #facts: DefaultSessionFacts;
  readonly #sessions = new Map<string, OutsideSession>();
  readonly #heard = new Set<string>();
  readonly #unknown = new Set<string>();
  #foreign: readonly ForeignFilter[] = [];
  #paused = false;

  constructor(
    options: OutsideBrokerOptions,
    context: SourceContext,
    sink: Sink<OutsideTicket>,
    facts: DefaultSessionFacts,
  ) {
    this.url = options.url;
    this.#options = options;
    this.#context = context;
    this.#sink = sink;
    this.#facts = facts;
  }

  acknowledge(tickets: readonly OutsideTicket[]): void {
    acknowledgeAll(tickets, this.#sessions.values());
  }

  health(): SourceHealth {
    return worst([...this.#sessions.values()].map((session) => session.health()));
  }

  setForeign(filters: readonly ForeignFilter[]): void {
    this.#foreign = filters;
    this.#sessions.get(defaultSession)?.setForeign(filters);
  }

  async listen(filter: string, forMs: number): Promise<void> {
    await [...this.#sessions.values()][0]?.listen(filter, forMs);
  }

  hold(site: string, view: SessionView): void {
    if (this.#paused || this.#sessions.has(site)) return;
    this.#sessions.set(site, site === defaultSession ? this.#openDefault(view) : this.#openSite(site, view));
  }

  /** Takes nothing more of a site; what was taken is still acknowledged. */
  async pauseSite(site: string): Promise<void> {
    await this.#sessions.get(site)?.pause();
  }

  async letGo(site: string): Promise<void> {
    const session = this.#sessions.get(site);
    this.#sessions.delete(site);
    await session?.close();
    this.#context.log.info({ site }, 'let go of a site');
  }

  /** Sites whose own session hears all: the default session leaves these alone. */
  setHeard(sites: Iterable<string>): void {
    this.#heard.clear();
    for (const site of sites) this.#heard.add(site);
  }

  say(site: string, message: Outgoing): void {
    this.#sessions.get(site)?.say(site, message);
  }

  /** Sends a site's barrier once more: the default session had no session yet, or the barrier was lost with it. */
  barrierAgain(site: string, text: string): void {
    this.#sessions.get(site)?.publish(`${barrierPrefix(this.#options)}${site}`, text);
  }

  /** The lease was confirmed: what was not allowed to connect may. */
  confirm(site: string): void {
    this.#sessions.get(site)?.confirm();
  }

  async pause(): Promise<void> {
    this.#paused = true;
    await Promise.all([...this.#sessions.values()].map((session) => session.pause()));
  }

  async close(): Promise<void> {
    await Promise.all([...this.#sessions.values()].map((session) => session.close()));
  }

  #openDefault({ mayConnect }: SessionView): OutsideSession {
    const session = openDefaultSession({
      options: this.#options,
      context: this.#context,
      sink: this.#sink,
      facts: this.#facts,
      mayConnect,
      isHeard: (site) => this.#heard.has(site),
      unknown: this.#unknown,
    });
    session.setForeign(this.#foreign);
    return session;
  }

  #openSite(site: string, { mayConnect, stands }: SessionView): OutsideSession {
    const session: OutsideSession = openOutsideBroker(
      {
        ...this.#options,
        clientId: `${this.#options.clientId}-site-${site}`,
        rootFilter: `${this.#context.root}/${site}/+/+`,
        mayConnect,
        onStanding: (hadBefore) => {
          void stands?.(hadBefore).then((barrier) => {
            if (barrier !== undefined) session.publish(`${barrierPrefix(this.#options)}${site}`, barrier);
          });
        },
      },
      this.#context,
      this.#sink,
    );
    return session;
  }
}

/** A delivery belongs to the connection it came on; each session picks its own. */
function acknowledgeAll(tickets: readonly OutsideTicket[], sessions: Iterable<OutsideSession>): void {
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
  return bad ?? all[0] ?? partHealth('ok', message('health.broker.no-site'));
}
