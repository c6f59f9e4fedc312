/** A number as devices write it for people: with a comma, with its unit behind it. */
import { parseNumber } from '../decode/decode-payload.ts';

interface ValueText {
  readonly number: number;
  /** As it stands there; '' where there is none. */
  readonly unit: string;
}

const longest = 64;
const longestUnit = 16;
/** A comma before one group of digits, and no point, stands for the decimal point: 1,5 is one and a half. */
const written = /^([+-]?\d+(?:[.,]\d*)?(?:[eE][+-]?\d+)?)\s*([^\d\s.,+-]\D*)?$/;

/** @example parseValueText('41,5 °C') // => { number: 41.5, unit: '°C' } */
export function parseValueText(text: string): ValueText | undefined {
  const trimmed = text.trim();
  if (trimmed.length > longest) return undefined;
  const plain = parseNumber(trimmed);
  if (plain !== undefined) return { number: plain, unit: '' };
  const parts = written.exec(trimmed.replace('\u2212', '-'));
  const number = parseNumber((parts?.[1] ?? '').replace(',', '.'));
  const unit = parts?.[2] ?? '';
  return number === undefined || unit.length > longestUnit ? undefined : { number, unit: unit.trim() };
}
