/** Keeps a client subscribed to our topics and to those that are mapped. */
import type { MqttClient } from 'mqtt';
import type { ForeignFilter, IngestLog } from '../commit/inbound-source.ts';
import { filtersOverlap } from '../mapping/topic-filter.ts';
import { subscriptionId } from './subscription-ids.ts';

export interface Subscriptions {
  /** Hears these beside our own topics from now on. */
  setForeign(filters: readonly ForeignFilter[]): void;
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
  /** With the identifier and the QoS that each has. */
  const subscribed = new Map<string, string>();
  const refused = new Set<string>();
  let foreign: ReadonlyMap<string, ForeignFilter> = new Map();

  /**
   * Retained messages come with each new subscription (Retain Handling 0), so that every probe's status arrives;
   * one that only changes its identifier brings none (Retain Handling 1).
   */
  function subscribe(filter: string, id: number | undefined, qos: 0 | 1): void {
    const rh = subscribed.has(filter) ? 1 : 0;
    const properties = id === undefined ? {} : { properties: { subscriptionIdentifier: id } };
    subscribed.set(filter, `${id} ${qos}`);
    client.subscribe(filter, { qos, rh, ...properties }, (error, granted) => {
      const failed = error !== null || granted?.some((answer) => answer.qos >= 0x80);
      // Answers come in the order asked, and the root's filter is asked for last.
      if (!failed && filter === rootFilter) filters.standing?.();
      if (!failed) refused.delete(filter);
      else if (client.connected && filter !== alwaysQos0 && foreign.get(filter)?.isOptional !== true) {
        refused.add(filter);
        log.error({ filter, err: error }, 'the broker refused a subscription; look at what this user may read there');
      }
    });
  }

  function update(): void {
    if (!client.connected) return; // everything is subscribed on connecting
    // Identifiers tell copies apart where filters may overlap; elsewhere they would only cost time.
    const offered = client.serverProperties?.subscriptionIdentifiersAvailable !== false;
    // What is heard where the broker lets us is never about our own topics.
    const overlapped = [...foreign.values()].some((one) => !one.isOptional && filtersOverlap(one.filter, rootFilter));
    const isNumbered = (filter: string) => foreign.has(filter) || (filter === rootFilter && overlapped);
    const idOf = (filter: string) => (offered && isNumbered(filter) ? subscriptionId(filter) : undefined);
    const wanted = new Set([alwaysQos0, ...(filters.also ? [filters.also] : []), ...foreign.keys(), rootFilter]);
    for (const filter of wanted) {
      const id = idOf(filter);
      const qos = filter === alwaysQos0 || filters.qos === 0 ? 0 : (foreign.get(filter)?.qos ?? 1);
      if (subscribed.get(filter) !== `${id} ${qos}`) subscribe(filter, id, qos);
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
      foreign = new Map(filters.filter(({ filter }) => filter !== rootFilter).map((one) => [one.filter, one]));
      update();
    },
    renew() {
      subscribed.clear();
      update();
    },
    refused: () => [...refused],
  };
}
