/** What a value of an unknown device seems to be, by its name, its unit and its topic. A guess, for a person to look at. */
import type { MessageValue } from '../../shared/contracts/ingest.ts';
import { type ForeignUnit, foreignUnitsOf, type Quantity, quantityFacts } from '../../shared/quantity.ts';
import { unitNamed } from '../decode/unit-names.ts';
import { readValueName } from '../decode/value-name.ts';
import type { parseValueText } from './value-text.ts';

type Guess = Pick<MessageValue, 'quantity' | 'unit'>;

const none: Guess = { quantity: null, unit: null };

/** Too short to be read anywhere but here, where a person looks. */
const shortNames: Readonly<Record<string, Quantity>> = { t: 'temperature', tc: 'temperature', h: 'humidity' };

/** Units that one quantity alone has. */
const quantityOfUnit: Readonly<Record<string, Quantity>> = {
  '°C': 'temperature',
  '℃': 'temperature',
  '°F': 'temperature',
  '℉': 'temperature',
  '%RH': 'humidity',
  ppm: 'co2',
  V: 'battery',
  mV: 'battery',
  dBm: 'rssi',
};

/** @param path Names in the message, from the outside in. */
export function guessValue(
  { number, unit }: NonNullable<ReturnType<typeof parseValueText>>,
  path: readonly string[],
  topic: string,
): Guess {
  const names = [path.at(-1), path.slice(-2).join(' '), path.join(' ')].filter((name) => name !== undefined);
  // What a message calls by a name of its own is that; else its topic may say it.
  const levels = path.length === 0 || /^(value|val|v|state|data|\d+)$/i.test(path.at(-1) ?? '') ? topic.split('/') : [];
  for (const name of [...names, ...levels.slice(-3).reverse()]) {
    const named = readValueName(name);
    if (named !== undefined) return likely(named.quantity, named.unit ?? unit, number);
  }
  const quantity = ownOf(quantityOfUnit, unit) ?? ownOf(shortNames, (path.at(-1) ?? '').toLowerCase());
  return quantity === undefined ? none : likely(quantity, unit, number);
}

const ownOf = (table: Readonly<Record<string, Quantity>>, name: string) =>
  Object.hasOwn(table, name) ? table[name] : undefined;

/** What lies beyond what a probe can mean is something else, such as a time. */
function likely(quantity: Quantity, unitText: string, number: number): Guess {
  const named = unitNamed(quantity, unitText);
  const units = foreignUnitsOf(quantity);
  const unit = units.find((one) => one === named) ?? units[0];
  const { min, max } = quantityFacts[quantity];
  // Tenths, hundredths and other units lie a little outside; times lie far outside.
  if (unit === undefined || number < min * 100 - 100 || number > max * 100) return none;
  return { quantity, unit: fractionOr(unit, units, number) };
}

/** A share of one is no per cent. */
function fractionOr(unit: ForeignUnit, units: readonly ForeignUnit[], number: number): ForeignUnit {
  const isShare = number > 0 && number < 1 && units.includes('/');
  return isShare ? '/' : unit;
}
