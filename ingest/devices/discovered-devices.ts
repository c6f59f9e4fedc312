/**
 * Reads what devices say that introduced themselves by discovery messages. It is bounded: a flood of introductions
 * drives out the oldest, and never reads a topic of ours.
 */

import { BoundedMap } from '../../shared/bounded-map.ts';
import type { ReadingError } from '../../shared/errors.ts';
import { isDiscoveryTopic } from './device-topic.ts';
import { type Discovered, type DiscoveredAvailability, readDiscovery } from './discovery-message.ts';
import type { DeviceMessage, DeviceReport, FamilySays } from './family.ts';
import { templateValue } from './value-template.ts';

const rememberedMessages = 2_000;
const mostTopics = 500;
const mostOfTopic = 50;

export interface DiscoveredDevices {
  /** What devices said that they would speak on, oldest first. */
  topics(): string[];
  read(message: DeviceMessage): { readonly says: FamilySays; readonly refusals: readonly ReadingError[] } | undefined;
}

/** A device whose values stand on topics of boards with ESPHome is called as it would be without discovery. */
interface Named extends Discovered {
  readonly via: string;
  readonly family: string | undefined;
}

interface OfTopic {
  readonly values: readonly Named[];
  readonly availabilities: readonly { readonly of: Named; readonly by: DiscoveredAvailability }[];
}

/**
 * @param isOurs Whether a topic is none to be read by discovery.
 * @param changed Called when `topics` may be others than before.
 */
export function openDiscovered(isOurs: (topic: string) => boolean, changed: () => void): DiscoveredDevices {
  const messages = new BoundedMap<{ readonly text: string; readonly found: readonly Named[] }>(rememberedMessages);
  /** What each availability topic of a device last said. */
  const states = new BoundedMap<ReadonlyMap<string, boolean>>(rememberedMessages);
  /** Worked out when it is asked for: devices introduce themselves many at a time. */
  let byTopic: ReadonlyMap<string, OfTopic> | undefined;

  function topics(): ReadonlyMap<string, OfTopic> {
    byTopic ??= byTopics([...messages.values()].flatMap(({ found }) => found));
    return byTopic;
  }

  function introduce(message: DeviceMessage): readonly ReadingError[] {
    const before = messages.get(message.topic);
    if (before?.text === message.text) return []; // said again on each connection
    const { found, refusals } = readDiscovery(message.levels, message.json(), isOurs);
    if (message.text === '') messages.delete(message.topic);
    else
      messages.set(message.topic, {
        text: message.text,
        found: found.map(named),
      });
    byTopic = undefined;
    changed();
    return refusals;
  }

  function availability({ of, by }: OfTopic['availabilities'][number], text: string, body: () => unknown): FamilySays {
    const said = by.template ? templateValue(by.template, text, body()) : text;
    if (said !== by.online && said !== by.offline) return 'ours';
    const all = new Map(states.get(of.via)).set(by.topic, said === by.online);
    states.set(of.via, all);
    const each = [...all.values()];
    const online = { all: each.every(Boolean), any: each.some(Boolean), latest: said === by.online };
    return { via: of.via, online: online[of.availabilityMode], ...(of.family && { family: of.family }) };
  }

  return {
    topics: () => [...topics().keys()],
    read(message) {
      if (isDiscoveryTopic(message.topic)) return { says: 'ours', refusals: introduce(message) };
      const known = topics().get(message.topic);
      if (known === undefined) return undefined;
      const [first] = known.availabilities;
      if (known.values.length === 0) {
        return { says: first ? availability(first, message.text, message.body) : 'ours', refusals: [] };
      }
      return { says: reportsOf(known.values, message), refusals: [] };
    },
  };
}

function named(one: Discovered): Named {
  const levels = one.stateTopic.split('/');
  const isBoard = levels.at(-1) === 'state' && levels.at(-3) === 'sensor' && one.template === undefined;
  if (!isBoard) return { ...one, via: one.device, family: undefined };
  const device = levels.slice(0, -3).join('/');
  return { ...one, device, via: device, family: 'esphome' };
}

function byTopics(all: readonly Named[]): Map<string, OfTopic> {
  const topics = new Map<string, { values: Named[]; availabilities: { of: Named; by: DiscoveredAvailability }[] }>();
  const at = (topic: string) => {
    const known = topics.get(topic) ?? { values: [], availabilities: [] };
    if (topics.size < mostTopics) topics.set(topic, known);
    return known;
  };
  for (const one of all) {
    const { values } = at(one.stateTopic);
    if (values.length < mostOfTopic) values.push(one);
    for (const by of one.availability) {
      const { availabilities } = at(by.topic);
      if (availabilities.every(({ of }) => of.via !== one.via) && availabilities.length < mostOfTopic)
        availabilities.push({ of: one, by });
    }
  }
  return topics;
}

function reportsOf(values: readonly Named[], message: DeviceMessage): DeviceReport[] {
  const reports = new Map<string, DeviceReport & { values: DeviceReport['values'][number][] }>();
  for (const one of values) {
    const found = one.template ? templateValue(one.template, message.text, message.body()) : message.text;
    if (found === undefined) continue; // said in another message of this topic
    const report = reports.get(one.device) ?? {
      via: one.via,
      device: one.device,
      label: one.label,
      values: [],
      expireMs: one.expireMs,
      family: one.family,
    };
    reports.set(one.device, report);
    report.values.push({ quantity: one.quantity, part: one.part, found, unit: one.unit, where: one.stateTopic });
  }
  return [...reports.values()];
}
