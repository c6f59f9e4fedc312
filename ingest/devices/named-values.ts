/** The values of a JSON object whose names the maker or the user of a device chose. */

import { readValueName } from '../decode/value-name.ts';
import { type DeviceValue, isObject, type JsonObject } from './family.ts';

/** Beyond these an object is no report of a probe. */
const deepest = 4;
const mostNames = 300;

/**
 * Found by their names, objects within objects by the names of both. `soil` is left out of a sensor's name where nothing
 * else in the message has that name, so that a soil probe is one probe.
 * @param where JSON Pointer to the object.
 */
export function namedValues(object: JsonObject, where: string): DeviceValue[] {
  const found: DeviceValue[] = [];
  let names = 0;

  function walk(here: JsonObject, path: readonly string[]): void {
    for (const name of Object.keys(here)) {
      names += 1;
      if (names > mostNames) return;
      const value = here[name];
      const whole = [...path, name];
      if (isObject(value)) {
        if (whole.length < deepest) walk(value, whole);
        continue;
      }
      if (typeof value !== 'number' && typeof value !== 'string') continue;
      const read = readValueName(whole.join(' '));
      if (read === undefined) continue;
      found.push({ ...read, found: value, where: `${where}/${whole.join('/')}` });
    }
  }

  walk(object, []);
  return found.map((value) => withoutSoil(value, found));
}

function withoutSoil(value: DeviceValue, all: readonly DeviceValue[]): DeviceValue {
  const words = value.part.split('-');
  if (!words.includes('soil')) return value;
  const part = words.filter((word) => word !== 'soil').join('-');
  const isTaken = all.some((other) => other !== value && other.quantity === value.quantity && other.part === part);
  return isTaken ? value : { ...value, part };
}
