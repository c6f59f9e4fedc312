/**
 * The payload form with one value per name, e.g. {"temperature": 41.5, "time": 1900000000}. It never minds names it
 * does not know: probes may say more than we ask.
 */

import { z } from 'zod';
import { ReadingError } from '../../shared/errors.ts';
import { message } from '../../shared/messages/message.ts';
import { type Quantity, quantities, quantityFacts } from '../../shared/quantity.ts';
import type { Reading } from '../../shared/reading.ts';
import { checkedValue } from './checked-value.ts';
import {
  type Arrival,
  type Decoded,
  foundSaid,
  noReadings,
  noRefusals,
  type ProbeRef,
  refused,
  whereSaid,
} from './decoded.ts';
import { readingTimeMs } from './reading-time.ts';

const numbers = Object.fromEntries(quantities.map((quantity) => [quantity, z.number().optional()])) as Record<
  Quantity,
  z.ZodOptional<z.ZodNumber>
>;
const bodySchema = z.object({
  ...numbers,
  time: z.union([z.string(), z.number()]).optional(),
  /** Of the temperature; °C when absent. */
  unit: z.enum(['C', 'F']).optional(),
});
type Body = z.infer<typeof bodySchema>;

export function decodeJsonObject(body: object, probe: ProbeRef, arrival: Arrival): Decoded {
  const parsed = bodySchema.safeParse(body);
  if (parsed.success) return fromFields(parsed.data, probe, arrival, noRefusals);

  const faults = parsed.error.issues.map((issue) => faultAt(String(issue.path[0]), body));
  const sound: Record<string, unknown> = { ...body };
  for (const { field } of faults) delete sound[field];
  const refusals = faults.map(({ error }) => error);
  // Without a readable time none of the values can be kept; with an unreadable unit the temperature cannot.
  if (faults.some(({ field }) => field === 'time')) return refused(...refusals);
  if (faults.some(({ field }) => field === 'unit')) delete sound.temperature;
  return fromFields(bodySchema.parse(sound), probe, arrival, refusals);
}

function fromFields(body: Body, probe: ProbeRef, arrival: Arrival, earlier: readonly ReadingError[]): Decoded {
  const atMs = readingTimeMs(body.time, arrival, '/time');
  if (typeof atMs !== 'number') return refused(...earlier, atMs);
  let readings: Reading[] | undefined;
  let refusals: ReadingError[] | undefined;
  for (const quantity of quantities) {
    const found = body[quantity];
    if (found === undefined) continue;
    const value = checkedValue(quantity, found, quantity === 'temperature' ? body.unit : undefined, `/${quantity}`);
    if (typeof value === 'number') {
      readings ??= [];
      readings.push({ site: probe.site, probe: probe.probe, quantity, value, atMs });
    } else {
      refusals ??= [...earlier];
      refusals.push(value);
    }
  }
  if (readings === undefined && refusals === undefined && earlier.length === 0) return refused(nothingKnown());
  return { readings: readings ?? noReadings, refusals: refusals ?? earlier };
}

function nothingKnown(): ReadingError {
  return new ReadingError('missing-field', message('refusal.nothing-known', { namesText: quantities.join(', ') }));
}

function faultAt(field: string, body: object): { field: string; error: ReadingError } {
  const foundPart = foundSaid((body as Record<string, unknown>)[field]);
  if (field === 'time') {
    const said = message('refusal.json-time', { wherePart: whereSaid('/time'), foundPart });
    return { field, error: new ReadingError('bad-time', said) };
  }
  if (field === 'unit') {
    return { field, error: new ReadingError('unknown-unit', message('refusal.json-unit', { foundPart })) };
  }
  const { unit } = quantityFacts[field as Quantity];
  const said = message('refusal.json-number', { fieldText: field, unitText: unit, foundPart });
  return { field, error: new ReadingError('wrong-type', said) };
}
