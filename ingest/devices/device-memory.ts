/** Which probes a device has, whether it is there, and who has which name. Bounded. */

import { BoundedMap } from '../../shared/bounded-map.ts';
import type { Arrival } from '../decode/decoded.ts';
import type { DeviceAvailability, DeviceReport } from './family.ts';

/** How a probe is known outside its name. */
export interface DeviceFacts {
  readonly family: string;
  /** As people named the device, or it names itself. */
  readonly label: string;
}

export interface DeviceListeners {
  onStatus(site: string, probe: string, online: boolean, atMs: number): void;
  onDevice(site: string, probe: string, facts: DeviceFacts): void;
}

export interface DeviceMemory {
  knows(family: string, site: string, via: string, probe: string): boolean;
  /** Whether another sensor has this name; the first that asks has it from then on. */
  isTaken(site: string, probe: string, sensor: string): boolean;
  heard(family: string, site: string, report: DeviceReport, probes: Iterable<string>, arrival: Arrival): void;
  saidAvailability(family: string, site: string, said: DeviceAvailability, nowMs: number): void;
  /** Says of those that were silent for too long that they are gone; looks now and then only. */
  expire(nowMs: number): void;
}

const rememberedDevices = 5_000;
const rememberedProbes = 20_000;
/** Sensors of one device, or devices that one gateway hears. */
const mostProbesOfOne = 1_000;
const longestLabel = 80;
const expiryEveryMs = 10_000;

/** A device, or a gateway with all it hears. */
interface Known {
  readonly site: string;
  online: boolean | undefined;
  readonly probes: Set<string>;
  heardMs: number;
  expireMs: number | undefined;
}

export function createDeviceMemory({ onStatus, onDevice }: DeviceListeners): DeviceMemory {
  const devices = new BoundedMap<Known>(rememberedDevices);
  const holders = new BoundedMap<string>(rememberedProbes);
  let expiredMs = 0;

  function deviceOf(family: string, site: string, via: string): Known {
    const name = `${site} ${family} ${via}`;
    const known = devices.get(name) ?? { site, online: undefined, probes: new Set(), heardMs: 0, expireMs: undefined };
    devices.set(name, known);
    return known;
  }

  function setOnline(device: Known, online: boolean, nowMs: number): void {
    device.online = online;
    for (const probe of device.probes) onStatus(device.site, probe, online, nowMs);
  }

  return {
    knows: (family, site, via, probe) => deviceOf(family, site, via).probes.has(probe),
    isTaken(site, probe, sensor) {
      const name = `${site}/${probe}`;
      const holder = holders.get(name);
      if (holder === undefined) holders.set(name, sensor);
      return holder !== undefined && holder !== sensor;
    },
    heard(family, site, report, probes, { nowMs, retained }) {
      const device = deviceOf(family, site, report.via);
      device.heardMs = nowMs;
      device.expireMs = report.expireMs;
      // Whoever speaks is there, whatever was said of it before.
      if (device.online === false && !retained) setOnline(device, true, nowMs);
      for (const probe of probes) {
        if (device.probes.has(probe) || device.probes.size >= mostProbesOfOne) continue;
        device.probes.add(probe);
        onDevice(site, probe, { family, label: (report.label ?? report.device).slice(0, longestLabel) });
        if (device.online !== undefined) onStatus(site, probe, device.online, nowMs);
      }
    },
    saidAvailability(family, site, { via, online }, nowMs) {
      setOnline(deviceOf(family, site, via), online, nowMs);
    },
    expire(nowMs) {
      if (nowMs - expiredMs < expiryEveryMs) return;
      expiredMs = nowMs;
      for (const device of devices.values()) {
        if (device.expireMs === undefined || device.online === false) continue;
        if (nowMs - device.heardMs > device.expireMs) setOnline(device, false, nowMs);
      }
    },
  };
}
