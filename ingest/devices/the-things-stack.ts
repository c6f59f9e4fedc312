/** LoRaWAN devices over The Things Stack v3: uplinks on `v3/<application>/devices/<device>/up`. */
import {
  type DeviceFamily,
  type DeviceMessage,
  type DeviceValue,
  type FamilySays,
  isObject,
  type JsonObject,
  objectAt,
  textAt,
} from './family.ts';
import { namedValues } from './named-values.ts';
import { strongest } from './strongest.ts';

export const theThingsStack: DeviceFamily = {
  id: 'the-things-stack',
  filters: [{ filter: 'v3/+/devices/+/up', timed: true }],
  open: () => ({ read }),
};

function read(message: DeviceMessage): FamilySays {
  const body = message.json();
  const uplink = body && objectAt(body, 'uplink_message');
  const device = message.levels[3] ?? '';
  if (body === undefined || uplink === undefined) return undefined;
  // One that somebody made up in the console, to try a formatter.
  if (body.simulated === true || uplink.simulated === true) return 'ours';
  const rssi = strongest(uplink.rx_metadata, '/uplink_message/rx_metadata');
  const time = textAt(uplink, 'received_at') ?? textAt(body, 'received_at');
  return [{ via: device, device, values: [...valuesOf(uplink), ...rssi], time }];
}

/** A formatter that names values by the rule of the Device Repository says more than one that does as it likes. */
function valuesOf(uplink: JsonObject): DeviceValue[] {
  const normalized = uplink.normalized_payload;
  // The newest of several is last; each of the others may have a time of its own, and is left to that formatter.
  const newest = Array.isArray(normalized) ? normalized.at(-1) : normalized;
  if (isObject(newest)) return normalizedValues(newest);
  const decoded = objectAt(uplink, 'decoded_payload');
  return decoded === undefined ? [] : namedValues(decoded, '/uplink_message/decoded_payload');
}

const rule = [
  ['soil', 'temperature', 'temperature', 'C', ''],
  ['soil', 'moisture', 'moisture', '%', ''],
  ['air', 'temperature', 'temperature', 'C', 'air'],
  ['air', 'relativeHumidity', 'humidity', '%', 'air'],
  ['air', 'co2', 'co2', 'ppm', 'air'],
] as const;

/** Air beside soil is another place; a device that measures air alone is one probe. */
function normalizedValues(payload: JsonObject): DeviceValue[] {
  const hasSoil = objectAt(payload, 'soil') !== undefined;
  const values: DeviceValue[] = rule.flatMap(([of, key, quantity, unit, place]) => {
    const group = objectAt(payload, of);
    if (group === undefined || !Object.hasOwn(group, key)) return [];
    const where = `/uplink_message/normalized_payload/${of}/${key}`;
    return [{ quantity, part: hasSoil ? place : '', found: group[key], unit, where }];
  });
  if (Object.hasOwn(payload, 'battery')) {
    const where = '/uplink_message/normalized_payload/battery';
    values.push({ quantity: 'battery', part: '', found: payload.battery, unit: 'V', where });
  }
  return values;
}
