/**
 * Temperatures as the person reads them, on pages and in messages. It never changes what is kept or sent: forms convert
 * back through `celsiusFrom`.
 */
import { celsiusToFahrenheit, fahrenheitToCelsius, kelvinDifferenceToFahrenheit } from './units.ts';

export type TempUnit = 'C' | 'F';

export const unitSigns: Record<TempUnit, string> = { C: '°C', F: '°F' };
export const noBreak = '\u00a0';
export const minus = '\u2212';

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
