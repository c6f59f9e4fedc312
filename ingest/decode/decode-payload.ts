/** Which of the payload forms a message has, and what it says. It never throws, whatever the payload holds. */

import { ReadingError } from '../../shared/errors.ts';
import { message } from '../../shared/messages/message.ts';
import type { Quantity } from '../../shared/quantity.ts';
import { checkedValue } from './checked-value.ts';
import { type Arrival, type Decoded, foundSaid, noRefusals, type ProbeRef, refused } from './decoded.ts';
import { decodeJsonObject } from './json-object.ts';
import { arrivalTimeMs } from './reading-time.ts';
import { decodeSenml } from './senml.ts';

/** A message on <site>/<probe>/reading: a SenML pack or a JSON object. */
export function decodeReading(text: string, probe: ProbeRef, arrival: Arrival): Decoded {
  const body = parseJson(text);
  if (body instanceof ReadingError) return refused(body);
  if (Array.isArray(body)) return decodeSenml(body, probe, arrival);
  if (typeof body === 'object' && body !== null) return decodeJsonObject(body, probe, arrival);
  return refused(new ReadingError('wrong-type', message('refusal.payload', { foundPart: foundSaid(body) })));
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
        message('refusal.bare-number', { quantityName: quantity, foundPart: foundSaid(text) }),
      ),
    );
  }
  const atMs = arrivalTimeMs(arrival, { place: 'object-time' });
  if (typeof atMs !== 'number') return refused(atMs);
  const value = checkedValue(quantity, found, undefined, { place: 'payload' });
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
    return new ReadingError('not-json', message('refusal.json', { problemText: problem.slice(0, 120) }), {
      cause,
    });
  }
}
