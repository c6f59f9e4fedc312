/**
 * Reads messages of devices that speak in their own way, without a mapping. Their probes are unclaimed ones like any
 * other. A message of no family is left alone and counts as nothing.
 */

import { BoundedMap } from '../../shared/bounded-map.ts';
import { ReadingError } from '../../shared/errors.ts';
import { deviceSite } from '../../shared/names.ts';
import { type Arrival, type Decoded, noReadings, noRefusals, refused } from '../decode/decoded.ts';
import { createDeviceMemory, type DeviceHearers } from './device-memory.ts';
import { createDeviceMessage } from './device-message.ts';
import { deviceReadings } from './device-readings.ts';
import { filterAmong, isFamilyTopic, isOf, standingFilters } from './device-topic.ts';
import { type DiscoveredDevices, openDiscovered } from './discovered-devices.ts';
import { deviceFamilies } from './families.ts';
import type { DeviceFamily, DeviceFilter, DeviceMessage, DeviceReport, FamilyReader, FamilySays } from './family.ts';

/** A foreign message as a broker brought it. */
interface ForeignMessage {
  readonly topic: string;
  readonly text: string;
  readonly arrival: Arrival;
  /** Of the key that its sender has; devices of senders without one are of `deviceSite`. */
  readonly site: string | undefined;
}

export interface DevicesOptions extends DeviceHearers {
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

const rememberedSites = 200;

/** Of one site: what one site's devices are called says nothing of another's. */
interface Readers {
  readonly families: ReadonlyMap<DeviceFamily, FamilyReader>;
  readonly discovered: DiscoveredDevices;
}

const nothing: Decoded = { readings: noReadings, refusals: noRefusals };

export function recogniseDevices({ root, filtersChanged, ...hearers }: DevicesOptions): Devices {
  const memory = createDeviceMemory(hearers);
  const sites = new BoundedMap<Readers>(rememberedSites);
  /** Topics that devices behind an outside broker introduced, beside the standing ones; asked for with every message there. */
  let introduced: ReadonlySet<string> | undefined;

  function readersAt(site: string): Readers {
    const known = sites.get(site);
    if (known !== undefined) return known;
    const opened: Readers = {
      families: new Map(deviceFamilies.map((family) => [family, family.open()])),
      // An outside broker tells no keys, so all it brings is of one site.
      discovered: openDiscovered(
        (topic) => topic.startsWith(`${root}/`),
        () => {
          if (site !== deviceSite) return;
          introduced = undefined;
          filtersChanged();
        },
      ),
    };
    sites.set(site, opened);
    return opened;
  }

  function take(family: string, site: string, report: DeviceReport, arrival: Arrival): Decoded {
    const decoded = deviceReadings(report, site, arrival, (probe) => memory.knows(family, site, report.via, probe));
    if (decoded.readings.length === 0) return decoded;
    const sensor = `${family} ${report.device}`;
    const taken = decoded.readings.find(({ probe }) => memory.isTaken(site, probe, sensor));
    if (taken !== undefined) return refused(...decoded.refusals, nameTaken(site, taken.probe, report.device));
    const probes = new Set(decoded.readings.map(({ probe }) => probe));
    memory.heard(family, site, report, probes, arrival);
    return decoded;
  }

  function takeAll(family: string, site: string, says: FamilySays, arrival: Arrival): Decoded | undefined {
    if (says === undefined || says === 'ours') return says && nothing;
    if ('via' in says) {
      memory.saidAvailability(says.family ?? family, site, says, arrival.nowMs);
      return nothing;
    }
    const all = says.map((report) => take(report.family ?? family, site, report, arrival));
    const [only] = all;
    if (all.length === 1 && only !== undefined) return only;
    return {
      readings: all.flatMap(({ readings }) => readings),
      refusals: all.flatMap(({ refusals }) => refusals),
    };
  }

  function discovered(readers: Readers, site: string, message: DeviceMessage): Decoded | undefined {
    const read = readers.discovered.read(message);
    if (read === undefined) return undefined;
    const taken = takeAll('discovery', site, read.says, message.arrival) ?? nothing;
    return read.refusals.length === 0 ? taken : { ...taken, refusals: [...read.refusals, ...taken.refusals] };
  }

  function introducedTopics(): ReadonlySet<string> {
    introduced ??= new Set(
      sites
        .get(deviceSite)
        ?.discovered.topics()
        .filter((topic) => !isFamilyTopic(topic)),
    );
    return introduced;
  }

  return {
    filters: () => [...standingFilters, ...[...introducedTopics()].map((filter) => ({ filter }))],
    filterOf(topic) {
      return filterAmong(topic, standingFilters) ?? (introducedTopics().has(topic) ? topic : undefined);
    },
    read({ topic, text, arrival, site = deviceSite }) {
      memory.expire(arrival.nowMs);
      const readers = readersAt(site);
      const message = createDeviceMessage(topic, text, arrival);
      for (const [family, reader] of readers.families) {
        // A board that introduced itself said its units there.
        if (family.id === 'esphome') {
          const taken = discovered(readers, site, message);
          if (taken !== undefined) return taken;
        }
        if (!isOf(topic, family.filters)) continue;
        const decoded = takeAll(family.id, site, reader.read(message), arrival);
        if (decoded !== undefined) return decoded;
      }
      return undefined;
    },
  };
}

function nameTaken(site: string, probe: string, device: string): ReadingError {
  return new ReadingError(
    'name-taken',
    `Cannot tell two devices apart as each must give another name: found ${site}/${probe} taken when ${device} spoke`,
  );
}
