/**
 * Shelly devices of the second generation and later. What they measure comes in two ways, each of which can be switched
 * on: the status of one component on `<device>/status/<component>`, and `NotifyStatus` with whatever changed on
 * `<device>/events/rpc`. Where both are on, a value counts once.
 */
import { BoundedMap } from '../../shared/bounded-map.ts';
import {
  type DeviceFamily,
  type DeviceMessage,
  type DeviceValue,
  type FamilyReader,
  type FamilySays,
  isObject,
  type JsonObject,
  objectAt,
} from './family.ts';

export const shelly: DeviceFamily = {
  id: 'shelly',
  filters: [{ filter: '+/status/+' }, { filter: '+/events/rpc' }, { filter: '+/online' }],
  open,
};

const rememberedComponents = 5_000;
/** The two ways bring a value within a moment of each other. */
const sameMeasurementMs = 10_000;
const mostComponents = 100;

function open(): FamilyReader {
  const said = new BoundedMap<{ found: unknown; atMs: number; way: string }>(rememberedComponents);

  function isRepeat(device: string, value: DeviceValue, way: string, nowMs: number): boolean {
    const name = `${device} ${value.part} ${value.quantity}`;
    const before = said.get(name);
    if (before?.found === value.found && before?.way !== way && nowMs - (before?.atMs ?? 0) < sameMeasurementMs)
      return true;
    said.set(name, { found: value.found, atMs: nowMs, way });
    return false;
  }

  return {
    read(message) {
      const [device = '', way = ''] = message.levels;
      if (way === 'online') return availability(device, message);
      const body = message.json();
      if (body === undefined) return undefined;
      const params = way === 'events' ? notified(body) : { [message.levels[2] ?? '']: body };
      if (params === undefined) return undefined;
      const { nowMs } = message.arrival;
      const all = valuesOf(params);
      if (all.length === 0) return undefined;
      const values = all.filter((value) => !isRepeat(device, value, way, nowMs));
      const time = way === 'events' && typeof params.ts === 'number' ? params.ts : undefined;
      return [{ via: device, device, values, time }];
    },
  };
}

function availability(via: string, { text }: DeviceMessage): FamilySays {
  return text === 'true' || text === 'false' ? { via, online: text === 'true' } : undefined;
}

function notified(body: JsonObject): JsonObject | undefined {
  const { method } = body;
  if (method !== 'NotifyStatus' && method !== 'NotifyFullStatus') return undefined;
  return objectAt(body, 'params');
}

/** Components that measure, by the first half of their name; the second is 0 for what is built in. */
function valuesOf(params: JsonObject): DeviceValue[] {
  return Object.keys(params)
    .slice(0, mostComponents)
    .flatMap((component): DeviceValue[] => {
      const [kind = '', id = ''] = component.split(':');
      const status = params[component];
      if (!isObject(status) || !/^\d{1,4}$/.test(id)) return [];
      const part = id === '0' ? '' : id;
      const where = `/${component}`;
      if (kind === 'temperature' && Object.hasOwn(status, 'tC'))
        return [{ quantity: 'temperature', part, found: status.tC, unit: 'C', where: `${where}/tC` }];
      if (kind === 'humidity' && Object.hasOwn(status, 'rh'))
        return [{ quantity: 'humidity', part, found: status.rh, unit: '%', where: `${where}/rh` }];
      const battery = objectAt(status, 'battery');
      if (kind === 'devicepower' && battery !== undefined)
        return [
          { quantity: 'battery', part, found: battery.V, unit: 'V', where: `${where}/battery/V` },
          { quantity: 'charge', part, found: battery.percent, unit: '%', where: `${where}/battery/percent` },
        ];
      return [];
    });
}
