/**
 * Boards that say all their sensors in one object on `tele/<topic>/SENSOR`. Their `Time` is local and says no offset, so
 * what they say counts from its arrival.
 */
import { parseInstant } from '../../shared/contracts/time.ts';
import {
  availabilityBy,
  type DeviceFamily,
  type DeviceMessage,
  type DeviceValue,
  type FamilySays,
  isObject,
  type JsonObject,
  textAt,
} from './family.ts';

export const tasmota: DeviceFamily = {
  id: 'tasmota',
  filters: [
    { filter: 'tele/+/SENSOR' },
    { filter: 'tele/+/LWT' },
    { filter: '+/tele/SENSOR' },
    { filter: '+/tele/LWT' },
  ],
  open: () => ({ read }),
};

const mostSensors = 64;
/** The processor's own temperature. */
const chips = /^ESP(32|8266)/i;

function read(message: DeviceMessage): FamilySays {
  const [first = '', second = '', last] = message.levels;
  const device = first === 'tele' ? second : first;
  if (last === 'LWT') return availabilityBy(device, message.text.toLowerCase());
  const body = message.json();
  const time = body && textAt(body, 'Time');
  if (body === undefined || time === undefined) return undefined;
  const unit = textAt(body, 'TempUnit') ?? 'C';
  const values = Object.keys(body)
    .slice(0, mostSensors)
    .flatMap((name) => {
      const sensor = body[name];
      return isObject(sensor) && !chips.test(name) ? valuesOf(name, sensor, unit) : [];
    });
  // Some are set up to say the offset as well.
  return [{ via: device, device, values, time: parseInstant(time) === undefined ? undefined : time }];
}

/** A one-wire chip is known by its `Id`: the number behind its name changes when another is plugged in or fails. */
function valuesOf(name: string, sensor: JsonObject, unit: string): DeviceValue[] {
  const part = (textAt(sensor, 'Id') ?? name).toLowerCase();
  const where = `/${name}`;
  const found: DeviceValue[] = [];
  for (const key of Object.keys(sensor).slice(0, mostSensors)) {
    const numbered = /^Temperature(\d{0,2})$/.exec(key);
    if (numbered) {
      const digits = numbered[1] ?? '';
      const own = digits === '' ? part : `${part}-${digits}`;
      found.push({ quantity: 'temperature', part: own, found: sensor[key], unit, where: `${where}/${key}` });
    }
  }
  for (const [key, quantity] of others) {
    if (Object.hasOwn(sensor, key)) found.push({ quantity, part, found: sensor[key], where: `${where}/${key}` });
  }
  return found;
}

const others = [
  ['Humidity', 'humidity'],
  ['Moisture', 'moisture'],
  ['CarbonDioxide', 'co2'],
  ['Battery', 'charge'],
  ['RSSI', 'rssi'],
] as const;
