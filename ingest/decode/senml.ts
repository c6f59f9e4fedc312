/**
 * The payload form that follows RFC 8428 (SenML JSON). It never takes the probe from the names: that is the topic's, so
 * a pack cannot speak for another probe.
 */

import { ReadingError } from '../../shared/errors.ts';
import { message } from '../../shared/messages/message.ts';
import { type Quantity, quantities } from '../../shared/quantity.ts';
import type { Reading } from '../../shared/reading.ts';
import { checkedValue } from './checked-value.ts';
import { type Arrival, type Decoded, foundSaid, type ProbeRef, refused } from './decoded.ts';
import { arrivalTimeMs, checkedTime } from './reading-time.ts';
import { type ResolvedRecord, resolveSenml } from './senml-resolve.ts';

const known: ReadonlySet<string> = new Set(quantities);

export function decodeSenml(pack: readonly unknown[], probe: ProbeRef, arrival: Arrival): Decoded {
  const records = resolveSenml(pack, arrival.nowMs);
  if (records instanceof ReadingError) return refused(records);
  const readings: Reading[] = [];
  const refusals: ReadingError[] = [];
  for (const record of records) {
    const reading = record instanceof ReadingError ? record : toReading(record, probe, arrival);
    if (reading instanceof ReadingError) refusals.push(reading);
    else readings.push(reading);
  }
  return { readings, refusals };
}

function toReading(record: ResolvedRecord, probe: ProbeRef, arrival: Arrival): Reading | ReadingError {
  const quantity = quantityOf(record);
  if (quantity instanceof ReadingError) return quantity;
  const where = `/${record.index}/v`;
  if (record.value === undefined) {
    return new ReadingError(
      'missing-field',
      message('refusal.senml.sum', { pointerText: where, foundPart: foundSaid(record.sum) }),
    );
  }
  if (typeof record.value !== 'number') {
    return new ReadingError(
      'wrong-type',
      message('refusal.senml.number', {
        pointerText: where,
        quantityName: quantity,
        foundPart: foundSaid(record.value),
      }),
    );
  }
  const atMs = timeOf(record, arrival);
  if (typeof atMs !== 'number') return atMs;
  const value = checkedValue(quantity, record.value, record.unit, where);
  if (typeof value !== 'number') return value;
  return { site: probe.site, probe: probe.probe, quantity, value, atMs };
}

/** The last part of the full name, so that "urn:dev:ow:10e2:temperature" and "pile7/temperature" both say what it is. */
function quantityOf(record: ResolvedRecord): Quantity | ReadingError {
  const last = record.name.slice(Math.max(...[':', '/', '.'].map((mark) => record.name.lastIndexOf(mark))) + 1);
  if (known.has(last)) return last as Quantity;
  return new ReadingError(
    'unknown-quantity',
    message('refusal.senml.name', {
      indexCount: record.index,
      namesText: quantities.join(', '),
      foundPart: foundSaid(record.name),
    }),
  );
}

function timeOf(record: ResolvedRecord, arrival: Arrival): number | ReadingError {
  const where = `/${record.index}/t`;
  if (record.relative) {
    const dated = arrivalTimeMs(arrival, where);
    if (typeof dated !== 'number') return dated;
  }
  return checkedTime(record.atMs, arrival, where, record.atMs / 1000);
}
