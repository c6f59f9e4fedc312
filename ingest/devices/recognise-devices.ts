/**
 * Reads messages of devices that speak in their own way, without a mapping. Their probes are unclaimed ones like any
 * other. A message of no family is left alone and counts as nothing.
 */

import { deviceSite } from '../../shared/names.ts';
import type { Arrival, Decoded } from '../decode/decoded.ts';
import { createDeviceMemory, type DeviceListeners, type DeviceMemory } from './device-memory.ts';
import { createDeviceMessage } from './device-message.ts';
import { filterAmong, isOf, standingFilters } from './device-topic.ts';
import type { DeviceFilter, DeviceMessage } from './family.ts';
import { type Readers, SiteReaders } from './site-readers.ts';
import { nothing, takeReports } from './take-reports.ts';

/** A foreign message as a broker brought it. */
interface ForeignMessage {
  readonly topic: string;
  readonly text: string;
  readonly arrival: Arrival;
  /** Of the key that its sender has; devices of senders without one are of `deviceSite`. */
  readonly site: string | undefined;
}

export interface DevicesOptions extends DeviceListeners {
  /** First level of our own topics, which no device can claim for itself. */
  readonly root: string;
  /** Called when `filters` are others than before. */
  filtersChanged(): void;
}

export interface Devices {
  /** What to hear at an outside broker. */
  filters(): readonly DeviceFilter[];
  /** By which of `filters` a message on this topic is read; undefined when no family has such topics. */
  filterOf(topic: string): string | undefined;
  /** @returns undefined when no family knows it. */
  read(message: ForeignMessage): Decoded | undefined;
}

export function recogniseDevices({ root, filtersChanged, ...listeners }: DevicesOptions): Devices {
  const memory = createDeviceMemory(listeners);
  const readers = new SiteReaders({ root, introducedChanged: filtersChanged });

  return {
    filters: () => [...standingFilters, ...[...readers.introducedTopics()].map((filter) => ({ filter }))],
    filterOf(topic) {
      return filterAmong(topic, standingFilters) ?? (readers.introducedTopics().has(topic) ? topic : undefined);
    },
    read({ topic, text, arrival, site = deviceSite }) {
      memory.expire(arrival.nowMs);
      return readAt(site, readers.at(site), createDeviceMessage(topic, text, arrival), memory);
    },
  };
}

function readAt(site: string, readers: Readers, message: DeviceMessage, memory: DeviceMemory): Decoded | undefined {
  const heard = { site, arrival: message.arrival };
  for (const [family, reader] of readers.families) {
    // A board that introduced itself said its units there.
    if (family.id === 'esphome') {
      const taken = readDiscovered(site, readers, message, memory);
      if (taken !== undefined) return taken;
    }
    if (!isOf(message.topic, family.filters)) continue;
    const decoded = takeReports(memory, family.id, reader.read(message), heard);
    if (decoded !== undefined) return decoded;
  }
  return undefined;
}

/** What devices that introduced themselves say, or how they introduce themselves. */
function readDiscovered(
  site: string,
  { discovered }: Readers,
  message: DeviceMessage,
  memory: DeviceMemory,
): Decoded | undefined {
  const read = discovered.read(message);
  if (read === undefined) return undefined;
  const taken = takeReports(memory, 'discovery', read.says, { site, arrival: message.arrival }) ?? nothing;
  return read.refusals.length === 0 ? taken : { ...taken, refusals: [...read.refusals, ...taken.refusals] };
}
