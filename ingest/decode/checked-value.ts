/**
 * A number with its unit becomes a value we keep, or a refusal. It never judges a pile: the bounds are the probe's, so
 * 85 °C is news and 200 °C is a fault.
 */

import { ReadingError } from '../../shared/errors.ts';
import { message } from '../../shared/messages/message.ts';
import type { QuantityFacts } from '../../shared/quantities/quantity-facts.ts';
import { type Quantity, quantityFacts } from '../../shared/quantity.ts';
import { foundSaid, type Where, whereSaid } from './decoded.ts';

export function unitsOf(quantity: Quantity): string[] {
  return Object.keys(quantityFacts[quantity].from);
}

/**
 * @param unit As named in the payload; undefined means the unit we keep.
 * @param where JSON Pointer to the value, for the sentence.
 */
export function checkedValue(
  quantity: Quantity,
  found: number,
  unit: string | undefined,
  where: Where,
): number | ReadingError {
  let value = found;
  if (unit !== undefined) {
    const units: QuantityFacts['from'] = quantityFacts[quantity].from;
    const convert = Object.hasOwn(units, unit) ? units[unit] : undefined;
    if (convert === undefined) {
      return new ReadingError(
        'unknown-unit',
        message('refusal.unit', {
          quantityName: quantity,
          wherePart: whereSaid(where),
          unitsText: Object.keys(units).join(', '),
          foundPart: foundSaid(unit),
        }),
      );
    }
    value = convert(found);
  }
  const { min, max, unit: kept } = quantityFacts[quantity];
  if (value >= min && value <= max) return value; // so that NaN is refused too
  const asFound = { wherePart: whereSaid(where), foundText: unit === undefined ? String(found) : `${found} ${unit}` };
  return new ReadingError(
    'out-of-range',
    quantity === 'temperature'
      ? message('refusal.range.temperature', { ...asFound, lowestC: min, highestC: max, sign: faultSign(value) })
      : message('refusal.range.other', { ...asFound, quantityName: quantity, rangeText: `${min}..${max} ${kept}` }),
  );
}

/** What drivers say of a one-wire probe that is not there [°C]. */
export const disconnectedC = -127;

/** Values by which one-wire chips and their libraries report a fault; both lie outside the range. */
function faultSign(tempC: number): 'disconnected' | 'failed' | 'other' {
  if (tempC === disconnectedC) return 'disconnected';
  return tempC === 127.9375 ? 'failed' : 'other';
}
