/**
 * Reads messages of devices that speak in their own way, without a mapping. Their probes are unclaimed ones like any
 * other. A message of no family is left alone and counts as nothing.
 */
import { ReadingError } from '../../shared/errors.ts';
import { deviceSite } from '../../shared/names.ts';
import { type Arrival, type Decoded, noReadings, noRefusals, refused } from '../decode/decoded.ts';
import { matchFilter } from '../mapping/topic-filter.ts';
import { BoundedMap } from './bounded-map.ts';
import { deviceReadings } from './device-readings.ts';
import { deviceFamilies } from './families.ts';
import {
  type DeviceAvailability,
  type DeviceFamily,
  type DeviceFilter,
  type DeviceMessage,
  type DeviceReport,
  type FamilyReader,
  isObject,
  type JsonObject,
} from './family.ts';

/** A foreign message as a broker brought it. */
interface ForeignMessage {
  readonly topic: string;
  readonly text: string;
  readonly arrival: Arrival;
  /** Of the key that its sender has; devices of senders without one are of `deviceSite`. */
  readonly site: string | undefined;
}

/** How a probe is known outside its name. */
export interface DeviceFacts {
  readonly family: string;
  /** As people named the device, or it names itself. */
  readonly label: string;
}

export interface DevicesOptions {
  onStatus(site: string, probe: string, online: boolean, atMs: number): void;
  onDevice(site: string, probe: string, facts: DeviceFacts): void;
}

export interface Devices {
  /** What to hear at an outside broker. */
  readonly filters: readonly DeviceFilter[];
  /** By which of `filters` a message on this topic is read; undefined when no family has such topics. */
  filterOf(topic: string): string | undefined;
  /** @returns undefined when no family knows it. */
  read(message: ForeignMessage): Decoded | undefined;
}

const rememberedDevices = 5_000;
const rememberedProbes = 20_000;
const longestLabel = 80;
/** Sensors of one device, or devices that one gateway hears. */
const mostProbesOfOne = 1_000;

const rememberedSites = 200;

interface OpenFamily {
  readonly family: DeviceFamily;
  readonly reader: FamilyReader;
}

/** A device, or a gateway with all it hears. */
interface Known {
  online: boolean | undefined;
  readonly probes: Set<string>;
}

const nothing: Decoded = { readings: noReadings, refusals: noRefusals };

export function recogniseDevices({ onStatus, onDevice }: DevicesOptions): Devices {
  /** By site: what one site's devices are called says nothing of another's. */
  const readersOf = new BoundedMap<readonly OpenFamily[]>(rememberedSites);
  const filters = deviceFamilies.flatMap((family) => family.filters);
  const known = new BoundedMap<Known>(rememberedDevices);
  /** Which sensor has a name: two devices may call themselves alike. */
  const holders = new BoundedMap<string>(rememberedProbes);

  function readersAt(site: string): readonly OpenFamily[] {
    const open = readersOf.get(site) ?? deviceFamilies.map((family) => ({ family, reader: family.open() }));
    readersOf.set(site, open);
    return open;
  }

  function knownOf(name: string): Known {
    const found = known.get(name) ?? { online: undefined, probes: new Set<string>() };
    known.set(name, found);
    return found;
  }

  function heardOf(family: string, site: string, { via, online }: DeviceAvailability, nowMs: number): void {
    const device = knownOf(`${site} ${family} ${via}`);
    device.online = online;
    for (const probe of device.probes) onStatus(site, probe, online, nowMs);
  }

  function isTaken(site: string, probe: string, sensor: string): boolean {
    const name = `${site}/${probe}`;
    const holder = holders.get(name);
    if (holder === undefined) holders.set(name, sensor);
    return holder !== undefined && holder !== sensor;
  }

  function take(family: string, site: string, report: DeviceReport, arrival: Arrival): Decoded {
    const device = knownOf(`${site} ${family} ${report.via}`);
    const decoded = deviceReadings(report, site, arrival, (probe) => device.probes.has(probe));
    const sensor = `${family} ${report.device}`;
    const [first] = decoded.readings;
    if (first === undefined) return decoded;
    const taken = decoded.readings.find(({ probe }) => isTaken(site, probe, sensor));
    if (taken !== undefined) return refused(...decoded.refusals, nameTaken(site, taken.probe, report.device));
    for (const { probe } of decoded.readings) {
      const isNew = !device.probes.has(probe) && device.probes.size < mostProbesOfOne;
      if (!isNew) continue;
      device.probes.add(probe);
      onDevice(site, probe, { family, label: (report.label ?? report.device).slice(0, longestLabel) });
      if (device.online !== undefined) onStatus(site, probe, device.online, arrival.nowMs);
    }
    return decoded;
  }

  function readBy(family: string, reader: FamilyReader, message: DeviceMessage, site: string): Decoded | undefined {
    const says = reader.read(message);
    if (says === undefined || says === 'ours') return says && nothing;
    if ('via' in says) {
      heardOf(family, site, says, message.arrival.nowMs);
      return nothing;
    }
    const all = says.map((report) => take(family, site, report, message.arrival));
    const [only] = all;
    if (all.length === 1 && only !== undefined) return only;
    return {
      readings: all.flatMap(({ readings }) => readings),
      refusals: all.flatMap(({ refusals }) => refusals),
    };
  }

  return {
    filters,
    filterOf: (topic) => filters.find(({ filter }) => matchFilter(filter, topic) !== undefined)?.filter,
    read({ topic, text, arrival, site = deviceSite }) {
      let message: DeviceMessage | undefined;
      for (const [index, family] of deviceFamilies.entries()) {
        if (!family.filters.some(({ filter }) => matchFilter(filter, topic) !== undefined)) continue;
        message ??= deviceMessage(topic, text, arrival);
        const { reader } = readersAt(site)[index] ?? {};
        if (reader === undefined) continue;
        const decoded = readBy(family.id, reader, message, site);
        if (decoded !== undefined) return decoded;
      }
      return undefined;
    },
  };
}

function deviceMessage(topic: string, text: string, arrival: Arrival): DeviceMessage {
  let parsed: { readonly body: JsonObject | undefined } | undefined;
  return {
    topic,
    levels: topic.split('/'),
    text,
    arrival,
    json() {
      parsed ??= { body: jsonObject(text) };
      return parsed.body;
    },
  };
}

/** What is cut off or no object is no report of a device; a mapping that wants it says so. */
function jsonObject(text: string): JsonObject | undefined {
  if (!text.trimStart().startsWith('{')) return undefined;
  try {
    const body: unknown = JSON.parse(text);
    return isObject(body) ? body : undefined;
  } catch {
    return undefined;
  }
}

function nameTaken(site: string, probe: string, device: string): ReadingError {
  return new ReadingError(
    'name-taken',
    `Cannot tell two devices apart as each must give another name: found ${site}/${probe} taken when ${device} spoke`,
  );
}
