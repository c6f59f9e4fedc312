/** How the value of an argument is shown, by the end of its name: quantities carry their unit there, as everywhere in the code. */
import { ageOf } from '../age.ts';
import { clockOptions } from '../hour-cycle.ts';
import { type MeasureKind, measure, metric, toFigures, type Units } from '../measure.ts';
import type { Sum } from '../sum.ts';
import { differenceIn, noBreak, tempIn, unitSigns } from '../temperature.ts';
import { msPerHour, msPerMinute } from '../units.ts';
import { regionOf } from './language.ts';
import type { Amount, Difference, Temperature } from './param-types.ts';

export { metric, type Units as ReaderUnits } from '../measure.ts';

/** For whom a message is made. */
export interface Reader {
  /** BCP 47. */
  readonly language: string;
  /** IANA; for moments. */
  readonly timeZone: string;
  /** What is now for them: a moment of today is a time, of another day has its date [epoch ms]. */
  readonly nowMs: number;
  readonly units: Units;
  /** Whether hours are read with am and pm; not when absent. */
  readonly hour12?: boolean;
}

/** A program that asks for nothing else: English, SI units, moments in UTC. */
export const plainReader = (nowMs: number, units: Units = metric): Reader => ({
  language: 'en',
  timeZone: 'UTC',
  nowMs,
  units,
});

type Show = (value: number, reader: Reader) => string;

/** Amounts in chosen units, by figures. Longest endings first: "rainMm" is no length in m. */
const amounts: readonly (readonly [RegExp, MeasureKind, scale?: number])[] = [
  [/KgM3$/, 'densityKgM3'],
  [/KgM2$/, 'rateKgM2'],
  [/M2$/, 'areaM2'],
  [/Mm$/, 'rainMm'],
  [/Cm$/, 'depthM', 0.01],
  [/Ml$/, 'starterMl'],
  [/Kg$/, 'massKg'],
  [/L$/, 'volumeL'],
  [/M$/, 'lengthM'],
  [/Share$/, 'share'],
  [/Ratio$/, 'number'],
];

const shown: readonly (readonly [RegExp, Show])[] = [
  [/AtMs$/, (ms, reader) => momentWords(ms, reader)],
  [/DateMs$/, (ms, reader) => dateWords(ms, reader)],
  [/DayMs$/, (ms, reader) => dayWords(ms, reader)],
  [/WhenMs$/, (ms, reader) => whenWords(ms, reader)],
  [/Bytes$/, (bytes, reader) => sizeWords(bytes, reader)],
  [/Hours$/, (hours, reader) => exactHoursWords(hours, reader)],
  [/[a-z0-9]G$/, (grams, reader) => withUnit(atMost(grams, 2, reader), 'g')],
  [/[^g]M3$/, (m3, reader) => withUnit(figures(m3, 3, reader), 'm³')],
  [/agoMs$/i, (ms, reader) => agoWords(ms, reader)],
  [/Ms$/, (ms, reader) => durationWords(ms, reader)],
  [/H$/, (hours, reader) => hoursWords(hours, reader)],
  [/Frac$/, (frac, reader) => withUnit(decimals(100 * frac, 0, reader), '%')],
  [/Pct$/, (pct, reader) => withUnit(atMost(pct, 1, reader), '%')],
  [/Factor$/, (factor, reader) => figures(factor, factor < 10 ? 2 : 3, reader)],
  [/Number$/, (value, reader) => atMost(value, 1, reader)],
];

/**
 * @param name Of the argument, which ends with its unit: `coreC`, `aboveK`, `moistureFrac`, `sinceMs`, `raisedAtMs`.
 * @returns The text; undefined for a name without a unit, whose value is shown as it is.
 */
export function formatQuantity(
  name: string,
  value: Temperature | Difference | Amount | string,
  reader: Reader,
): string | undefined {
  if (typeof value === 'string') return /[a-z]Day$/.test(name) ? calendarDayWords(value, reader) : undefined;
  if (/(^c|C)$/.test(name)) return temperatureWords(value as Temperature, reader);
  if (/[a-z0-9]K$/.test(name)) return differenceWords(value as Difference, reader);
  const [, kind, scale = 1] = amounts.find(([ending]) => ending.test(name)) ?? [];
  if (kind !== undefined) {
    const amount = value as Amount;
    return typeof amount === 'number'
      ? amountWords(kind, amount * scale, reader, 3)
      : amountWords(kind, amount.value * scale, reader, amount.figures);
  }
  if (typeof value !== 'number') return undefined;
  return shown.find(([ending]) => ending.test(name))?.[1](value, reader);
}

/** @example temperatureWords(52.34, reader) // => "52.3 °C"; at most one decimal, unless it says how many */
function temperatureWords(value: Temperature, reader: Reader): string {
  const { temperature: unit } = reader.units;
  const degrees =
    typeof value === 'number'
      ? atMost(tempIn(unit, value), 1, reader)
      : decimals(tempIn(unit, value.valueC), value.decimals, reader);
  return withUnit(degrees, unitSigns[unit]);
}

/** @example differenceWords(5, reader) // => "5 °C", or "9 °F": a difference has no offset of 32 */
function differenceWords(value: Difference, reader: Reader): string {
  const { temperature: unit } = reader.units;
  const degrees =
    typeof value === 'number'
      ? atMost(differenceIn(unit, value), 1, reader)
      : decimals(differenceIn(unit, value.valueK), value.decimals, reader);
  return withUnit(degrees, unitSigns[unit]);
}

/** @example durationWords(3 * 3600e3, reader) // => "3 hours"; minutes below an hour and a half, days from 48 hours on */
function durationWords(ms: number, reader: Reader): string {
  if (ms < 1.5 * msPerHour) return counted(Math.max(1, Math.round(ms / msPerMinute)), 'minute', reader);
  if (ms < 48 * msPerHour) return counted(Math.round(ms / msPerHour), 'hour', reader);
  return counted(Math.round(ms / (24 * msPerHour)), 'day', reader);
}

/** @example agoWords(3 * 3600e3, reader) // => "3 hours ago"; "just now" under a minute */
function agoWords(ms: number, { language }: Reader): string {
  const age = ageOf(ms);
  if (age !== null) return relative(language, 'always').format(-age.count, age.unit);
  // In English "now" would say that it is going on.
  return language.startsWith('en') ? 'just now' : relative(language, 'auto').format(0, 'second');
}

/** @example hoursWords(9.34, reader) // => "9.3 hours"; hoursWords(0.5, reader) // => "30 minutes" */
function hoursWords(hours: number, reader: Reader): string {
  return hours < 0.95 ? durationWords(hours * msPerHour, reader) : counted(Math.round(hours * 10) / 10, 'hour', reader);
}

/** @example exactHoursWords(9.34, reader) // => "9.34 h"; "9.34 時間" where a language is written in other letters */
function exactHoursWords(hours: number, reader: Reader): string {
  const own = counted(rounded(hours, 2), 'hour', reader, 2);
  return /\p{Script=Latin}/u.test(own) ? withUnit(atMost(hours, 2, reader), 'h') : own;
}

/** @example momentWords(today at 16:30, reader) // => "16:30", or "4:30 pm"; another day: "Fri 2 May, 16:30" */
function momentWords(atMs: number, reader: Reader): string {
  const { language, timeZone, nowMs, hour12 = false } = reader;
  const region = regionOf(language);
  const clock = dateFormat(region, { ...clockOptions(hour12), timeZone }).format(atMs);
  const day = dateFormat(region, { weekday: 'short', day: 'numeric', month: 'short', timeZone });
  return day.format(atMs) === day.format(nowMs) ? clock : `${day.format(atMs).replace(',', '')}, ${clock}`;
}

const sizeSteps = [
  [1e12, 'TB'],
  [1e9, 'GB'],
  [1e6, 'MB'],
  [1e3, 'kB'],
] as const;

/** @example sizeWords(1_234_000_000, reader) // => "1.2 GB"; rounded down, so never more than there is room for */
function sizeWords(bytes: number, reader: Reader): string {
  if (bytes > 0 && bytes < 1e3) return `<${noBreak}${sizeWords(1e3, reader)}`;
  const [least, unit] = sizeSteps.find(([least]) => bytes >= least) ?? [1e3, 'kB'];
  const value = bytes / least;
  return withUnit(atMost(value < 10 ? Math.floor(value * 10) / 10 : Math.floor(value), 1, reader), unit);
}

/** @example dateWords(atMs, reader) // => "2 May 2031, 16:30": with its year, for what is read long after */
function dateWords(atMs: number, { language, timeZone, hour12 = false }: Reader): string {
  const region = regionOf(language);
  const clock = dateFormat(region, { ...clockOptions(hour12), timeZone }).format(atMs);
  return `${dateFormat(region, { day: 'numeric', month: 'long', year: 'numeric', timeZone }).format(atMs)}, ${clock}`;
}

/** @example dayWords(atMs, reader) // => "2 May 2031": short, as a table needs it */
function dayWords(atMs: number, { language, timeZone }: Reader): string {
  return dateFormat(regionOf(language), { day: 'numeric', month: 'short', year: 'numeric', timeZone }).format(atMs);
}

/** @example calendarDayWords('2031-05-02', reader) // => "2 May 2031": a day by its calendar, wherever it is read */
const calendarDayWords = (day: string, reader: Reader) => dayWords(Date.parse(day), { ...reader, timeZone: 'UTC' });

/** @example whenWords(atMs, reader) // => "2 May 2031, 16:30", or "2 May 2031, 4:30 pm" */
function whenWords(atMs: number, reader: Reader): string {
  const { language, timeZone, hour12 = false } = reader;
  const clock = dateFormat(regionOf(language), { ...clockOptions(hour12), timeZone }).format(atMs);
  return `${dayWords(atMs, reader)}, ${clock}`;
}

/** @param count Of figures. @example amountWords('massKg', 12, reader, 3) // => "26.5 lb" for whoever reads pounds */
function amountWords(kind: MeasureKind, value: number, reader: Reader, count: number): string {
  const { value: shown, unit } = measure(kind, value, reader.units);
  const number = figures(shown, count, reader);
  return unit === '' ? number : withUnit(number, unit.replaceAll(' ', noBreak));
}

/** @example sumWords(sum`${amount('massKg', 10)} × ${amount('share', 0.6)}`, reader) // => "10 kg × 60 %": four figures */
export function sumWords(sum: Sum, reader: Reader): string {
  return sum.map((part) => (typeof part === 'string' ? part : amountWords(part.kind, part.value, reader, 4))).join('');
}

/** A number and its unit stay on one line. */
const withUnit = (number: string, unit: string) => `${number}${noBreak}${unit}`;

function counted(count: number, unit: 'minute' | 'hour' | 'day', { language }: Reader, digits = 1): string {
  return numberFormat(language, { style: 'unit', unit, unitDisplay: 'long', maximumFractionDigits: digits }).format(
    count,
  );
}

function atMost(value: number, digits: number, { language }: Reader): string {
  return plain(
    numberFormat(language, { maximumFractionDigits: digits, useGrouping: false }).format(rounded(value, digits)),
  );
}

function decimals(value: number, digits: number, { language }: Reader): string {
  const format = numberFormat(language, {
    minimumFractionDigits: digits,
    maximumFractionDigits: digits,
    useGrouping: false,
  });
  return plain(format.format(rounded(value, digits)));
}

function figures(value: number, count: number, { language }: Reader): string {
  const format = numberFormat(language, { maximumSignificantDigits: 12, useGrouping: false });
  return plain(format.format(toFigures(value, count)));
}

/** As sentences were rounded before: half up, and never "−0". */
const rounded = (value: number, digits: number) => Math.round(value * 10 ** digits) / 10 ** digits + 0;

const plain = (number: string) => number.replace('-', '−');

const numberFormats = new Map<string, Intl.NumberFormat>();
const dateFormats = new Map<string, Intl.DateTimeFormat>();
const relativeFormats = new Map<string, Intl.RelativeTimeFormat>();

function numberFormat(language: string, options: Intl.NumberFormatOptions): Intl.NumberFormat {
  return kept(numberFormats, language, options, () => new Intl.NumberFormat(language, options));
}

function dateFormat(language: string, options: Intl.DateTimeFormatOptions): Intl.DateTimeFormat {
  return kept(dateFormats, language, options, () => new Intl.DateTimeFormat(language, options));
}

function relative(language: string, numeric: 'always' | 'auto'): Intl.RelativeTimeFormat {
  return kept(relativeFormats, language, { numeric }, () => new Intl.RelativeTimeFormat(language, { numeric }));
}

function kept<T>(formats: Map<string, T>, language: string, options: object, make: () => T): T {
  const key = `${language} ${JSON.stringify(options)}`;
  const known = formats.get(key);
  if (known !== undefined) return known;
  const made = make();
  formats.set(key, made);
  return made;
}
