/** What a device reported, as readings of its probes or counted refusals. */

import { ReadingError } from '../../shared/errors.ts';
import { message } from '../../shared/messages/message.ts';
import { quantityFacts } from '../../shared/quantity.ts';
import type { Reading } from '../../shared/reading.ts';
import { checkedValue } from '../decode/checked-value.ts';
import { parseNumber } from '../decode/decode-payload.ts';
import {
  type Arrival,
  type Decoded,
  foundSaid,
  noReadings,
  noRefusals,
  refused,
  whereSaid,
} from '../decode/decoded.ts';
import { isSaid } from '../decode/no-reading.ts';
import { readingTimeMs } from '../decode/reading-time.ts';
import { deviceName } from './device-name.ts';
import type { DeviceReport, DeviceValue } from './family.ts';

const nothing: Decoded = { readings: noReadings, refusals: noRefusals };

/** @param isKnown Whether this probe has measured something of a pile before. */
export function deviceReadings(
  report: DeviceReport,
  site: string,
  arrival: Arrival,
  isKnown: (probe: string) => boolean,
): Decoded {
  const values = report.values.filter(({ found }) => isSaid(found));
  // It lay in the broker for an unknown time, so nobody knows whether it is still so.
  if (values.length === 0 || (arrival.retained && report.time === undefined)) return nothing;
  const probeOf = new Map(values.map(({ part }) => [part, deviceName(report.device, part)]));
  const measuring = new Set(values.filter(({ quantity }) => quantityFacts[quantity].isOfPile).map(({ part }) => part));
  const wanted = values.filter(({ part }) => measuring.has(part) || isKnown(probeOf.get(part) ?? ''));
  if (wanted.length === 0) return nothing;
  const atMs = readingTimeMs(report.time, arrival, { place: 'report-time' });
  if (typeof atMs !== 'number') return refused(atMs);
  const readings: Reading[] = [];
  const refusals: ReadingError[] = [];
  const taken = new Set<string>();
  for (const value of wanted) {
    const probe = probeOf.get(value.part) ?? '';
    const name = `${probe}/${value.quantity}`;
    if (taken.has(name)) continue; // the same in another unit
    taken.add(name);
    const kept = keptValue(value);
    if (typeof kept === 'number') readings.push({ site, probe, quantity: value.quantity, value: kept, atMs });
    else refusals.push(kept);
  }
  return { readings, refusals };
}

function keptValue({ quantity, found, unit, where }: DeviceValue): number | ReadingError {
  const value = typeof found === 'string' ? parseNumber(found) : found;
  if (typeof value === 'number') return checkedValue(quantity, value, unit, where);
  const said = { quantityName: quantity, wherePart: whereSaid(where), foundPart: foundSaid(found) };
  return new ReadingError('wrong-type', message('refusal.quantity-number', said));
}
