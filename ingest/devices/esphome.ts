/**
 * Boards that say one bare number a topic, `<node>/sensor/<name>/state`, retained, and `nan` for no reading. The unit is
 * not said there: their discovery messages have it, and where those are off values count as being in °C, % and ppm.
 */

import { readValueName } from '../decode/value-name.ts';
import { availabilityBy, type DeviceFamily, type DeviceMessage, type FamilySays } from './family.ts';

/** Others publish below these in the same shape. */
const notNodes = new Set(['homeassistant', 'zigbee2mqtt', 'tele', 'stat', 'cmnd', 'homie']);

export const esphome: DeviceFamily = {
  id: 'esphome',
  filters: [
    { filter: '+/sensor/+/state' },
    { filter: '+/+/sensor/+/state' },
    { filter: '+/status' },
    { filter: '+/+/status' },
  ],
  open: () => ({ read }),
};

function read({ levels, text }: DeviceMessage): FamilySays {
  if (notNodes.has(levels[0] ?? '')) return undefined;
  const last = levels.at(-1);
  if (last === 'status') return availabilityBy(levels.slice(0, -1).join('/'), text);
  const name = levels.at(-2) ?? '';
  const named = readValueName(name);
  // Text sensors have the same topics; a board's name of a value does not say whether it is a number.
  if (last !== 'state' || levels.at(-3) !== 'sensor' || named === undefined) return undefined;
  const node = levels.slice(0, -3).join('/');
  return [{ via: node, device: node, values: [{ ...named, found: text, where: { place: 'payload' } }] }];
}
