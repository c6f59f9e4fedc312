/**
 * A number with its unit becomes a value we keep, or a refusal. It never judges a pile: the bounds are the probe's, so
 * 85 °C is news and 200 °C is a fault.
 */
import { ReadingError } from '../../shared/errors.ts';
import type { QuantityFacts } from '../../shared/quantities/quantity-facts.ts';
import { type Quantity, quantityFacts } from '../../shared/quantity.ts';
import { shown } from './decoded.ts';

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
  where: string,
): number | ReadingError {
  let value = found;
  if (unit !== undefined) {
    const units: QuantityFacts['from'] = quantityFacts[quantity].from;
    const convert = Object.hasOwn(units, unit) ? units[unit] : undefined;
    if (convert === undefined) {
      return new ReadingError(
        'unknown-unit',
        `Cannot read ${quantity} at ${where} as its unit must be one of ${Object.keys(units).join(', ')}: found ${shown(unit)}`,
      );
    }
    value = convert(found);
  }
  const { min, max, unit: kept } = quantityFacts[quantity];
  if (value >= min && value <= max) return value; // so that NaN is refused too
  return new ReadingError(
    'out-of-range',
    `Cannot accept ${quantity} at ${where} as it must be within ${min}..${max} ${kept}: found ${shown(found)}${unit === undefined ? '' : ` ${unit}`}${knownSentinel(quantity, value)}`,
  );
}

/** Values by which one-wire chips and their libraries report a fault; both lie outside the range. */
function knownSentinel(quantity: Quantity, value: number): string {
  if (quantity !== 'temperature') return '';
  if (value === -127) return ' (this is how drivers report a disconnected one-wire probe)';
  if (value === 127.9375) return ' (this is what a one-wire chip gives when its conversion failed)';
  return '';
}
