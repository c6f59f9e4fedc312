/** Which of the payload forms a message has, and what it says. It never throws, whatever the payload holds. */
import { ReadingError } from '../../shared/errors.ts';
import type { Quantity } from '../../shared/quantity.ts';
import { checkedValue } from './checked-value.ts';
import { type Arrival, type Decoded, noRefusals, type ProbeRef, refused, shown } from './decoded.ts';
import { decodeJsonObject } from './json-object.ts';
import { arrivalTimeMs } from './reading-time.ts';
import { decodeSenml } from './senml.ts';

/** A message on <site>/<probe>/reading: a SenML pack or a JSON object. */
export function decodeReading(text: string, probe: ProbeRef, arrival: Arrival): Decoded {
  const body = parseJson(text);
  if (body instanceof ReadingError) return refused(body);
  if (Array.isArray(body)) return decodeSenml(body, probe, arrival);
  if (typeof body === 'object' && body !== null) return decodeJsonObject(body, probe, arrival);
  return refused(
    new ReadingError(
      'wrong-type',
      `Cannot read the payload as it must be a JSON object or a SenML pack (a bare number belongs on a topic that ends in its quantity): found ${shown(body)}`,
    ),
  );
}

/** Digits with an optional fraction and exponent; no hexadecimal, no thousands, no comma. */
const numberPattern = /^[+-]?(\d+(\.\d*)?|\.\d+)([eE][+-]?\d{1,3})?$/;

/** A message on <site>/<probe>/<quantity>: a bare number, in the unit we keep. */
export function decodeNumber(text: string, probe: ProbeRef, quantity: Quantity, arrival: Arrival): Decoded {
  const found = parseNumber(text);
  if (found === undefined) {
    return refused(
      new ReadingError(
        'wrong-type',
        `Cannot read ${quantity} as the payload must be one bare number: found ${shown(text)}`,
      ),
    );
  }
  const atMs = arrivalTimeMs(arrival, '/time of a JSON object on the topic that ends in "reading"');
  if (typeof atMs !== 'number') return refused(atMs);
  const value = checkedValue(quantity, found, undefined, 'the payload');
  if (typeof value !== 'number') return refused(value);
  return { readings: [{ site: probe.site, probe: probe.probe, quantity, value, atMs }], refusals: noRefusals };
}

export function parseNumber(text: string): number | undefined {
  const trimmed = text.trim();
  return trimmed.length <= 40 && numberPattern.test(trimmed) ? Number(trimmed) : undefined;
}

export function parseJson(text: string): unknown {
  try {
    return JSON.parse(text) as unknown;
  } catch (cause) {
    const problem = cause instanceof Error ? cause.message : String(cause);
    return new ReadingError('not-json', `Cannot read the payload as it must be JSON: ${problem.slice(0, 120)}`, {
      cause,
    });
  }
}
