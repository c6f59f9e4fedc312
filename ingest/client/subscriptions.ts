/** Keeps a client subscribed to our topics and to those that are mapped. */
import type { IClientSubscribeOptions, MqttClient } from 'mqtt';
import type { ForeignFilter, IngestLog } from '../commit/inbound-source.ts';
import { filtersOverlap } from '../mapping/topic-filter.ts';
import { subscriptionId } from './subscription-ids.ts';

export interface SubscriptionFilters {
  /** What to hear of ours. */
  readonly root: string;
  /** A filter that is heard too, but loses nothing that matters. */
  readonly alwaysQos0: string;
  readonly qos: 0 | 1;
  /** A filter of our own, beside the root's. */
  readonly also?: string;
  /** Everything asked for on connecting is subscribed. */
  standing?(): void;
}

type Qos = 0 | 1;

export class Subscriptions {
  readonly #client: MqttClient;
  readonly #log: IngestLog;
  readonly #filters: SubscriptionFilters;
  /** With the identifier and the QoS that each has. */
  readonly #subscribed = new Map<string, string>();
  readonly #refused = new Set<string>();
  #foreign: ReadonlyMap<string, ForeignFilter> = new Map();

  constructor(client: MqttClient, log: IngestLog, filters: SubscriptionFilters) {
    this.#client = client;
    this.#log = log;
    this.#filters = filters;
  }

  /** Hears these beside our own topics from now on. */
  setForeign(filters: readonly ForeignFilter[]): void {
    const { root } = this.#filters;
    this.#foreign = new Map(filters.filter(({ filter }) => filter !== root).map((one) => [one.filter, one]));
    this.#update();
  }

  /** To be called on every connect: nothing is taken for granted of an earlier session. */
  renew(): void {
    this.#subscribed.clear();
    this.#update();
  }

  /** What the broker does not let us read. */
  refused(): string[] {
    return [...this.#refused];
  }

  #update(): void {
    if (!this.#client.connected) return; // everything is subscribed on connecting
    const { root, alwaysQos0, also } = this.#filters;
    const wanted = new Set([alwaysQos0, ...(also ? [also] : []), ...this.#foreign.keys(), root]);
    const idOf = this.#identifiers();
    for (const filter of wanted) {
      const id = idOf(filter);
      const qos = this.#qosOf(filter);
      if (this.#subscribed.get(filter) !== `${id} ${qos}`) this.#subscribe(filter, id, qos);
    }
    for (const filter of this.#subscribed.keys()) {
      if (wanted.has(filter)) continue;
      this.#subscribed.delete(filter);
      this.#refused.delete(filter);
      this.#client.unsubscribe(filter);
    }
  }

  /** Identifiers tell copies apart where filters may overlap; elsewhere they would only cost time. */
  #identifiers(): (filter: string) => number | undefined {
    const { root } = this.#filters;
    if (this.#client.serverProperties?.subscriptionIdentifiersAvailable === false) return () => undefined;
    // What is heard where the broker lets us is never about our own topics.
    const overlapped = [...this.#foreign.values()].some((one) => !one.isOptional && filtersOverlap(one.filter, root));
    const isNumbered = (filter: string) => this.#foreign.has(filter) || (filter === root && overlapped);
    return (filter) => (isNumbered(filter) ? subscriptionId(filter) : undefined);
  }

  #qosOf(filter: string): Qos {
    const { alwaysQos0, qos } = this.#filters;
    return filter === alwaysQos0 || qos === 0 ? 0 : (this.#foreign.get(filter)?.qos ?? 1);
  }

  /**
   * Retained messages come with each new subscription (Retain Handling 0), so that every probe's status arrives;
   * one that only changes its identifier brings none (Retain Handling 1).
   */
  #subscribe(filter: string, id: number | undefined, qos: Qos): void {
    const rh = this.#subscribed.has(filter) ? 1 : 0;
    const properties = id === undefined ? {} : { properties: { subscriptionIdentifier: id } };
    const rap = this.#foreign.get(filter)?.saysWhetherKept === true;
    const options: IClientSubscribeOptions = { qos, rh, rap, ...properties };
    this.#subscribed.set(filter, `${id} ${qos}`);
    this.#client.subscribe(filter, options, (error, granted) => {
      const failed = error !== null || granted?.some((answer) => answer.qos >= 0x80) === true;
      this.#answered(filter, failed, error);
    });
  }

  #answered(filter: string, failed: boolean, error: Error | null): void {
    const { root, alwaysQos0, standing } = this.#filters;
    if (!failed) {
      this.#refused.delete(filter);
      // Answers come in the order asked, and the root's filter is asked for last.
      if (filter === root) standing?.();
      return;
    }
    if (!this.#client.connected || filter === alwaysQos0 || this.#foreign.get(filter)?.isOptional === true) return;
    this.#refused.add(filter);
    const message = 'the broker refused a subscription; look at what this user may read there';
    this.#log.error({ filter, err: error }, message);
  }
}
