/**
 * Bluetooth sensors over Theengs or OpenMQTTGateway, `home/<gateway>/BTtoMQTT/<address>`, and radio sensors over the
 * latter's `RTL_433toMQTT`. Beacons and what nobody could decode come by the same topics and are no reports.
 */
import { macDigits } from './device-name.ts';
import {
  availabilityBy,
  type DeviceFamily,
  type DeviceMessage,
  type DeviceReport,
  type DeviceValue,
  type FamilySays,
  type JsonObject,
  textAt,
} from './family.ts';
import { namedValues } from './named-values.ts';

export const theengs: DeviceFamily = {
  id: 'theengs',
  filters: [{ filter: 'home/+/BTtoMQTT/+' }, { filter: 'home/+/RTL_433toMQTT/#' }, { filter: 'home/+/LWT' }],
  open: () => ({ read }),
};

function read(message: DeviceMessage): FamilySays {
  const [, gateway = '', kind] = message.levels;
  if (kind === 'LWT') return availabilityBy(gateway, message.text);
  const body = message.json();
  if (body === undefined) return undefined;
  const report = kind === 'BTtoMQTT' ? overBluetooth(message, body) : overRadio(body);
  return report === undefined ? undefined : [{ via: gateway, ...report }];
}

function overBluetooth(message: DeviceMessage, body: JsonObject): Omit<DeviceReport, 'via'> {
  const mac = macDigits(textAt(body, 'id') ?? message.levels[3] ?? '');
  const label = textAt(body, 'name') ?? textAt(body, 'model');
  return { device: `ble-${mac}`, label, values: bluetoothValues(body) };
}

/** Names as the decoder library has them: `tempc`, of a probe with several tips `tempc2`, `tempc3` and so on. */
function bluetoothValues(body: JsonObject): DeviceValue[] {
  const values: DeviceValue[] = [];
  for (const key of Object.keys(body)) {
    const tip = /^tempc(\d?)$/.exec(key)?.[1];
    if (tip !== undefined)
      values.push({ quantity: 'temperature', part: tip, found: body[key], unit: 'C', where: `/${key}` });
  }
  for (const [key, quantity] of [
    ['hum', 'humidity'],
    ['moi', 'moisture'],
    ['co2', 'co2'],
    ['volt', 'battery'],
    ['batt', 'charge'],
    ['rssi', 'rssi'],
  ] as const) {
    if (Object.hasOwn(body, key)) values.push({ quantity, part: '', found: body[key], where: `/${key}` });
  }
  return values;
}

function overRadio(body: JsonObject): Omit<DeviceReport, 'via'> | undefined {
  const model = textAt(body, 'model');
  const { id, channel } = body;
  if (model === undefined || (typeof id !== 'number' && typeof id !== 'string')) return undefined;
  const where = typeof channel === 'number' || typeof channel === 'string' ? `-${channel}` : '';
  return { device: `${model}-${id}${where}`, label: model, values: namedValues(body, '') };
}
