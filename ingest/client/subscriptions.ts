/** Keeps a client subscribed to our topics and to those that are mapped. */
import type { MqttClient } from 'mqtt';
import type { IngestLog } from '../commit/inbound-source.ts';
import { subscriptionId } from './subscription-ids.ts';

export interface Subscriptions {
  /** Hears these beside our own topics from now on. */
  setForeign(filters: readonly string[]): void;
  /** To be called on every connect: nothing is taken for granted of an earlier session. */
  renew(): void;
  /** What the broker does not let us read. */
  refused(): string[];
}

export interface SubscriptionFilters {
  readonly qos: 0 | 1;
  /** A filter of our own, beside the root's. */
  readonly also?: string;
  /** Everything asked for on connecting is subscribed. */
  standing?(): void;
}

/** @param alwaysQos0 A filter that is heard too, but loses nothing that matters. */
export function createSubscriptions(
  client: MqttClient,
  rootFilter: string,
  alwaysQos0: string,
  log: IngestLog,
  filters: SubscriptionFilters = { qos: 1 },
): Subscriptions {
  /** With the identifier each has. */
  const subscribed = new Map<string, number | undefined>();
  const refused = new Set<string>();
  let foreign: readonly string[] = [];

  /**
   * Retained messages come with each new subscription (Retain Handling 0), so that every probe's status arrives;
   * one that only changes its identifier brings none (Retain Handling 1).
   */
  function subscribe(filter: string, id: number | undefined): void {
    const rh = subscribed.has(filter) ? 1 : 0;
    const qos = filter === alwaysQos0 ? 0 : filters.qos;
    const properties = id === undefined ? {} : { properties: { subscriptionIdentifier: id } };
    subscribed.set(filter, id);
    client.subscribe(filter, { qos, rh, ...properties }, (error, granted) => {
      const failed = error !== null || granted?.some((answer) => answer.qos >= 0x80);
      // Answers come in the order asked, and the root's filter is asked for last.
      if (!failed && filter === rootFilter) filters.standing?.();
      if (!failed) refused.delete(filter);
      else if (client.connected && filter !== alwaysQos0) {
        refused.add(filter);
        log.error({ filter, err: error }, 'the broker refused a subscription; look at what this user may read there');
      }
    });
  }

  function update(): void {
    if (!client.connected) return; // everything is subscribed on connecting
    // Identifiers tell copies apart where filters may overlap; without foreign ones they would only cost time.
    const numbered = foreign.length > 0 && client.serverProperties?.subscriptionIdentifiersAvailable !== false;
    const idOf = (filter: string) => (numbered && filter !== alwaysQos0 ? subscriptionId(filter) : undefined);
    const wanted = new Set([alwaysQos0, ...(filters.also ? [filters.also] : []), ...foreign, rootFilter]);
    for (const filter of wanted) {
      if (!subscribed.has(filter) || subscribed.get(filter) !== idOf(filter)) subscribe(filter, idOf(filter));
    }
    for (const filter of subscribed.keys()) {
      if (wanted.has(filter)) continue;
      subscribed.delete(filter);
      refused.delete(filter);
      client.unsubscribe(filter);
    }
  }

  return {
    setForeign(filters) {
      foreign = filters.filter((filter) => filter !== rootFilter);
      update();
    },
    renew() {
      subscribed.clear();
      update();
    },
    refused: () => [...refused],
  };
}
