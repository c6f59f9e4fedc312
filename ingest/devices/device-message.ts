import type { Arrival } from '../decode/decoded.ts';
import { type DeviceMessage, isObject } from './family.ts';

/** Parses its payload at most once, however many readers ask. */
export function createDeviceMessage(topic: string, text: string, arrival: Arrival): DeviceMessage {
  let parsed: { readonly body: unknown } | undefined;
  const body = () => {
    parsed ??= { body: parsedJson(text) };
    return parsed.body;
  };
  return {
    topic,
    levels: topic.split('/'),
    text,
    arrival,
    body,
    json() {
      const found = body();
      return isObject(found) ? found : undefined;
    },
  };
}

/** What is cut off is no report of a device; a mapping that wants it says so. */
function parsedJson(text: string): unknown {
  if (!/^\s*[{[]/.test(text)) return undefined;
  try {
    return JSON.parse(text) as unknown;
  } catch {
    return undefined;
  }
}
