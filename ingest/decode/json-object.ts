/**
 * The payload form with one value per name, e.g. {"temperature": 41.5, "time": 1900000000}. It never minds names it
 * does not know: probes may say more than we ask.
 */
import { z } from 'zod';
import { ReadingError } from '../../shared/errors.ts';
import { type Quantity, quantities, quantityFacts } from '../../shared/quantity.ts';
import type { Reading } from '../../shared/reading.ts';
import { checkedValue } from './checked-value.ts';
import { type Arrival, type Decoded, noReadings, noRefusals, type ProbeRef, refused, shown } from './decoded.ts';
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
  return new ReadingError(
    'missing-field',
    `Cannot find a value as the object must hold at least one of ${quantities.join(', ')}: found none`,
  );
}

function faultAt(field: string, body: object): { field: string; error: ReadingError } {
  const found = shown((body as Record<string, unknown>)[field]);
  if (field === 'time') {
    const message = `Cannot date the reading as /time must be a string or a number: found ${found}`;
    return { field, error: new ReadingError('bad-time', message) };
  }
  if (field === 'unit') {
    const message = `Cannot read temperature as /unit must be "C" or "F": found ${found}`;
    return { field, error: new ReadingError('unknown-unit', message) };
  }
  const { unit } = quantityFacts[field as Quantity];
  const message = `Cannot read /${field} as it must be a number [${unit}]: found ${found}`;
  return { field, error: new ReadingError('wrong-type', message) };
}
