/**
 * Temperatures as the person reads them, on pages and in messages. It never changes what is kept or sent: forms convert
 * back through `celsiusFrom`.
 */
import { celsiusToFahrenheit, fahrenheitToCelsius, kelvinDifferenceToFahrenheit } from './units.ts';

export type TempUnit = 'C' | 'F';

export const unitSigns: Record<TempUnit, string> = { C: '°C', F: '°F' };
const noBreak = '\u00a0';
const minus = '\u2212';

export function tempIn(unit: TempUnit, tempC: number): number {
  return unit === 'F' ? celsiusToFahrenheit(tempC) : tempC;
}

export function celsiusFrom(unit: TempUnit, value: number): number {
  return unit === 'F' ? fahrenheitToCelsius(value) : value;
}

export function differenceIn(unit: TempUnit, deltaK: number): number {
  return unit === 'F' ? kelvinDifferenceToFahrenheit(deltaK) : deltaK;
}

export function differenceFrom(unit: TempUnit, value: number): number {
  return unit === 'F' ? value / 1.8 : value;
}

/** A number with a true minus sign and a fixed count of decimals; never "−0". */
export function plainNumber(value: number, decimals: number): string {
  const text = value.toFixed(decimals);
  return Number(text) === 0 ? text.replace('-', '') : text.replace('-', minus);
}

/** @example formatTemp(47.25, 'F') // => "117.1 °F" */
export function formatTemp(tempC: number, unit: TempUnit, decimals = 1): string {
  return `${plainNumber(tempIn(unit, tempC), decimals)}${noBreak}${unitSigns[unit]}`;
}

export function formatDifference(deltaK: number, unit: TempUnit, decimals = 1): string {
  const value = differenceIn(unit, deltaK);
  return `${value > 0 ? '+' : ''}${plainNumber(value, decimals)}${noBreak}${unitSigns[unit]}`;
}

// Both bounded, so that a long row of digits or of numbers takes time by its length only.
const number = '[-\u2212]?\\d{1,6}(?:\\.\\d{1,6})?';
const joint = '(?:, | to | and | or |-|\u2013)';
const temperaturesInText = new RegExp(
  `(\\b(?:by|within)(?: about| at least| up to)? )?(${number}(?:${joint}${number}){0,9})[ \u00a0]?°C`,
  'g',
);
/** "4 °C above the air", "3 °C an hour": a difference, which has no offset of 32. */
const differenceAfter =
  /^[ \u00a0](above|below|warmer|cooler|hotter|colder|higher|lower|more|less|apart|per |an hour|a day|in an? )/;

/**
 * Puts the temperatures of a sentence made in °C into the unit the person reads, and keeps numbers and units on one
 * line. Differences are told by the words around them.
 */
export function sentenceIn(unit: TempUnit, sentence: string): string {
  const said = unit === 'C' ? sentence : inFahrenheit(sentence);
  return said.replace(/(\d) (?=[°%])/g, `$1${noBreak}`);
}

function inFahrenheit(sentence: string): string {
  return sentence.replace(temperaturesInText, (all: string, before = '', numbers: string, at: number) => {
    const after = sentence.slice(at + all.length, at + all.length + 12);
    const isDifference = before !== '' || differenceAfter.test(after);
    const turn = (text: string) => {
      const value = Number(text.replace(minus, '-'));
      const decimals = text.split('.')[1]?.length ?? 0;
      return plainNumber(isDifference ? differenceIn('F', value) : tempIn('F', value), decimals);
    };
    // A hyphen between two digits joins a range; one before a number alone is its sign.
    return `${before}${numbers.replace(/(^|[^\d])([-\u2212]?\d+(?:\.\d+)?)/g, (_all, before: string, one: string) => before + turn(one))} ${unitSigns.F}`;
  });
}
