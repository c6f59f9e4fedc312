/** LoRaWAN devices over ChirpStack v4: uplinks on `application/<id>/device/<DevEUI>/event/up`, decoded by its codec. */
import { type DeviceFamily, type DeviceMessage, type FamilySays, objectAt, textAt } from './family.ts';
import { namedValues } from './named-values.ts';
import { strongest } from './strongest.ts';

export const chirpstack: DeviceFamily = {
  id: 'chirpstack',
  filters: [{ filter: 'application/+/device/+/event/up', timed: true }],
  open: () => ({ read }),
};

function read(message: DeviceMessage): FamilySays {
  const body = message.json();
  const info = body && objectAt(body, 'deviceInfo');
  if (body === undefined || info === undefined) return undefined;
  const device = (message.levels[3] ?? '').toLowerCase();
  const decoded = objectAt(body, 'object');
  const values =
    decoded === undefined ? [] : [...namedValues(decoded, '/object'), ...strongest(body.rxInfo, '/rxInfo')];
  return [{ via: device, device, label: textAt(info, 'deviceName'), values, time: textAt(body, 'time') }];
}
