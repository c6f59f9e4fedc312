/**
 * What a value is, by the name that a device gives it. It is careful: a name that may mean a limit, an average or the
 * temperature of a chip is none of ours, and so is one that may mean two things.
 */
import type { Quantity } from '../../shared/quantity.ts';

export interface NamedValue {
  readonly quantity: Quantity;
  /** Named by it; undefined where it says none. */
  readonly unit: string | undefined;
  /** What is left of the name: which sensor it is. */
  readonly part: string;
}

const quantityWords: Readonly<Record<string, Quantity>> = {
  temperature: 'temperature',
  temperatur: 'temperature',
  temperatura: 'temperature',
  temp: 'temperature',
  tempc: 'temperature',
  tempf: 'temperature',
  humidity: 'humidity',
  hum: 'humidity',
  rh: 'humidity',
  moisture: 'moisture',
  soilmoisture: 'moisture',
  vwc: 'moisture',
  co2: 'co2',
  rssi: 'rssi',
  battery: 'battery',
  batt: 'battery',
  bat: 'battery',
  vbat: 'battery',
};

const unitWords: Readonly<Record<string, readonly [Quantity, string]>> = {
  c: ['temperature', 'C'],
  celsius: ['temperature', 'C'],
  degc: ['temperature', 'C'],
  tempc: ['temperature', 'C'],
  f: ['temperature', 'F'],
  fahrenheit: ['temperature', 'F'],
  degf: ['temperature', 'F'],
  tempf: ['temperature', 'F'],
  ppm: ['co2', 'ppm'],
  v: ['battery', 'V'],
  volt: ['battery', 'V'],
  voltage: ['battery', 'V'],
  vbat: ['battery', 'V'],
  mv: ['battery', 'mV'],
  dbm: ['rssi', 'dBm'],
};

/** Say nothing of which sensor it is. */
const emptyWords = new Set(['sensor', 'value', 'relative', 'percent', 'pct', 'reading', 'measured', 'the']);

/** A battery's value beside one of these is in per cent of its charge. */
const chargeWords = new Set(['percent', 'percentage', 'pct', 'level', 'charge', 'soc']);

/** A value with one of these is a setting, is worked out, or is of a chip rather than of what it measures. */
const otherWords = new Set(
  `set setpoint target min max minimum maximum calibration offset unit units alarm alert limit threshold dew dewpoint
   feels apparent index wind chill raw delta rate color colour trend status display mode sensitivity interval period
   warning low high enable enabled correction compensation previous last average avg mean absolute equivalent eco2
   internal cpu chip board esp esp32 esp8266 mcu soc processor processors device gateway system charge level state`.split(
    /\s+/,
  ),
);

const longestName = 100;

/** @returns undefined for a name that is none of ours. @example readValueName('TempC_SHT') // => temperature in C, part "sht" */
export function readValueName(name: string): NamedValue | undefined {
  if (name.length > longestName) return undefined;
  const words = wordsOf(name);
  const quantities = new Set(words.flatMap((word) => quantityOfWord(word) ?? []));
  // "wifi_signal" is how boards call the strength of their radio.
  if (words.includes('wifi') && words.includes('signal')) quantities.add('rssi');
  if (quantities.size === 0 && words.includes('water') && words.includes('soil')) quantities.add('moisture');
  const [quantity] = quantities;
  if (quantity === 'battery' && quantities.size === 1 && words.some((word) => chargeWords.has(word)))
    return readCharge(words);
  if (quantity === undefined || quantities.size > 1 || words.some((word) => otherWords.has(word))) return undefined;
  // The humidity of soil may be that of its air or the water in it.
  if (quantity === 'humidity' && words.includes('soil')) return undefined;
  const unit = words.map((word) => unitOfWord(word, quantity)).find((one) => one !== undefined);
  // A battery without a unit may be in per cent.
  if (quantity === 'battery' && unit === undefined) return undefined;
  const rest = words.filter((word) => !isSpent(word, quantity));
  return { quantity, unit, part: rest.join('-') };
}

function readCharge(words: readonly string[]): NamedValue | undefined {
  const rest = words.filter((word) => !chargeWords.has(word) && !isSpent(word, 'battery'));
  const saysAUnit = words.some((word) => unitOfWord(word, 'battery') !== undefined);
  if (saysAUnit || rest.some((word) => otherWords.has(word))) return undefined;
  return { quantity: 'charge', unit: '%', part: rest.join('-') };
}

/** Words in small letters; also where a capital follows a small letter, and digits behind a word that we know. */
function wordsOf(name: string): string[] {
  return name
    .replaceAll('mV', ' mv ')
    .replaceAll('%', ' percent ')
    .replaceAll(/([a-z])([A-Z])/g, '$1 $2')
    .toLowerCase()
    .replaceAll('carbon_dioxide', 'co2')
    .replaceAll('carbon dioxide', 'co2')
    .split(/[^\p{L}\p{N}]+/u)
    .filter((word) => word !== '')
    .flatMap((word) => {
      const stem = withoutDigits(word);
      const digits = word.slice(stem.length);
      const isNumbered = quantityOfWord(stem) !== undefined || Object.hasOwn(unitWords, stem);
      return digits !== '' && quantityOfWord(word) === undefined && isNumbered ? [stem, digits] : [word];
    });
}

function withoutDigits(word: string): string {
  let to = word.length;
  while (to > 0 && /\d/.test(word[to - 1] ?? '')) to -= 1;
  return word.slice(0, to);
}

const quantityOfWord = (word: string): Quantity | undefined =>
  Object.hasOwn(quantityWords, word) ? quantityWords[word] : undefined;

function unitOfWord(word: string, quantity: Quantity): string | undefined {
  const found = Object.hasOwn(unitWords, word) ? unitWords[word] : undefined;
  return found?.[0] === quantity ? found[1] : undefined;
}

function isSpent(word: string, quantity: Quantity): boolean {
  if (quantityOfWord(word) !== undefined || unitOfWord(word, quantity) !== undefined || emptyWords.has(word))
    return true;
  // Water is measured in soil, and in nothing else here.
  if (quantity === 'moisture' && (word === 'soil' || word === 'water')) return true;
  return quantity === 'rssi' && (word === 'wifi' || word === 'signal' || word === 'strength');
}
