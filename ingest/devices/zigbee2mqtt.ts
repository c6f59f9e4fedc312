/**
 * A bridge that says what it knows of each Zigbee device on `zigbee2mqtt/<name>`, where names may hold `/`. It repeats
 * from memory what a device did not say anew: with `last_seen` such a repeat has its old time; without it a value that
 * is as before counts as a repeat and is left out.
 */
import { BoundedMap } from '../../shared/bounded-map.ts';
import { availabilityBy, type DeviceFamily, type DeviceValue, type FamilyReader, type JsonObject } from './family.ts';

export const zigbee2mqtt: DeviceFamily = {
  id: 'zigbee2mqtt',
  filters: [{ filter: 'zigbee2mqtt/#' }],
  open,
};

const rememberedDevices = 5_000;

function open(): FamilyReader {
  const before = new BoundedMap<ReadonlyMap<string, unknown>>(rememberedDevices);

  return {
    read(message) {
      const levels = message.levels.slice(1);
      const last = levels.at(-1);
      if (levels.length === 0 || levels[0] === 'bridge' || last === 'set' || last === 'get') return undefined;
      if (last === 'availability')
        return availabilityBy(levels.slice(0, -1).join('/'), message.json()?.state ?? message.text);
      const body = message.json();
      if (body === undefined) return undefined;
      const device = levels.join('/');
      const values = valuesOf(body);
      const time = body.last_seen;
      if (typeof time === 'string' || typeof time === 'number') return [{ via: device, device, values, time }];
      const known = before.get(device);
      before.set(device, new Map(values.map(({ where, found }) => [String(where), found])));
      const fresh = values.filter(({ where, found }) => known?.get(String(where)) !== found);
      return [{ via: device, device, values: fresh }];
    },
  };
}

const exactly = [
  ['temperature', 'temperature', 'C'],
  ['humidity', 'humidity', '%'],
  ['soil_moisture', 'moisture', '%'],
  ['co2', 'co2', 'ppm'],
  ['battery', 'charge', '%'],
] as const;

function valuesOf(body: JsonObject): DeviceValue[] {
  const values: DeviceValue[] = [];
  for (const [name, quantity, unit] of exactly) {
    if (Object.hasOwn(body, name)) values.push({ quantity, part: '', found: body[name], unit, where: `/${name}` });
  }
  for (const name of Object.keys(body)) {
    // Devices with several sensors number them, or name their sides l1, l2.
    const part = /^temperature_(probe|l?\d{1,2})$/.exec(name)?.[1];
    if (part !== undefined)
      values.push({ quantity: 'temperature', part, found: body[name], unit: 'C', where: `/${name}` });
  }
  // Of a plug it would be the mains; of a battery it is in mV.
  const { voltage } = body;
  if (Object.hasOwn(body, 'battery') && typeof voltage === 'number' && voltage > 1_000 && voltage < 10_000)
    values.push({ quantity: 'battery', part: '', found: voltage, unit: 'mV', where: '/voltage' });
  return values;
}
