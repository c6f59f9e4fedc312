/**
 * LoRaWAN devices over ChirpStack v4: uplinks on `application/<id>/device/<DevEUI>/event/up`, decoded by its codec, and
 * now and then the charge of the battery on `…/event/status`.
 */
import {
  type DeviceFamily,
  type DeviceMessage,
  type DeviceValue,
  type FamilySays,
  type JsonObject,
  objectAt,
  textAt,
} from './family.ts';
import { namedValues } from './named-values.ts';
import { strongest } from './strongest.ts';

const statusFilter = 'application/+/device/+/event/status';

export const chirpstack: DeviceFamily = {
  id: 'chirpstack',
  filters: [
    { filter: 'application/+/device/+/event/up', timed: true },
    { filter: statusFilter, timed: true },
  ],
  open: () => ({ read }),
};

function read(message: DeviceMessage): FamilySays {
  const body = message.json();
  const info = body && objectAt(body, 'deviceInfo');
  if (body === undefined || info === undefined) return undefined;
  const device = (message.levels[3] ?? '').toLowerCase();
  const values = message.levels.at(-1) === 'status' ? chargeOf(body) : uplinkValues(body);
  return [{ via: device, device, label: textAt(info, 'deviceName'), values, time: textAt(body, 'time') }];
}

function uplinkValues(body: JsonObject): DeviceValue[] {
  const decoded = objectAt(body, 'object');
  return decoded === undefined ? [] : [...namedValues(decoded, '/object'), ...strongest(body.rxInfo, '/rxInfo')];
}

function chargeOf(body: JsonObject): DeviceValue[] {
  const isUnknown = body.batteryLevelUnavailable === true || body.externalPowerSource === true;
  const where = '/batteryLevel';
  return isUnknown ? [] : [{ quantity: 'charge', part: '', found: body.batteryLevel, unit: '%', where }];
}
