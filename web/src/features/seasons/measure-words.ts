/** The measures as columns of the table and as words of a difference. */
import type { MeasureKey } from '../../../../core/seasons/measure-keys.ts';
import { type Message, message } from '../../../../shared/messages/message.ts';
import { differenceIn, noBreak, plainNumber, type TempUnit, tempIn, unitSigns } from '../../ui/format/temperature.ts';
import type { SeasonWords } from './use-season-words.ts';

interface MeasureShown {
  readonly decimals: number;
  readonly kind: 'hours' | 'number' | 'litres' | 'days' | 'temperature' | 'degree-hours' | 'share' | 'depth';
}

const shownAs: Record<MeasureKey, MeasureShown> = {
  hoursTo40: { decimals: 0, kind: 'hours' },
  peakC: { decimals: 1, kind: 'temperature' },
  peakAfterH: { decimals: 0, kind: 'hours' },
  comfortH: { decimals: 0, kind: 'hours' },
  above50H: { decimals: 1, kind: 'hours' },
  above60H: { decimals: 1, kind: 'hours' },
  activityH: { decimals: 0, kind: 'hours' },
  degreeH: { decimals: 0, kind: 'degree-hours' },
  depthM: { decimals: 0, kind: 'depth' },
  moistureStartFrac: { decimals: 0, kind: 'share' },
  moistureEndFrac: { decimals: 0, kind: 'share' },
  waterL: { decimals: 0, kind: 'litres' },
  turns: { decimals: 0, kind: 'number' },
  alarmH: { decimals: 0, kind: 'hours' },
  readyDays: { decimals: 1, kind: 'days' },
  airMeanC: { decimals: 1, kind: 'temperature' },
};

/** Temperatures that measures are named by. */
const limitsC = { hoursTo40: 40, above50H: 50, above60H: 60 } as const;

const limitOf = (valueC: number) => ({ limitC: { valueC, decimals: 0 } }) as const;

/** For sentences. @example measureName('hoursTo40') // => "hours to 40 °C" */
export function measureName(key: MeasureKey): Message {
  return key === 'hoursTo40' || key === 'above50H' || key === 'above60H'
    ? message(`season.measure.${key}`, limitOf(limitsC[key]))
    : message(`season.measure.${key}`);
}

/** Of a column. */
export function headingOf(key: MeasureKey, { text }: SeasonWords): string {
  return key === 'hoursTo40' || key === 'above50H' || key === 'above60H'
    ? text(`page-seasons.heading.${key}`, limitOf(limitsC[key]))
    : text(`page-seasons.heading.${key}`);
}

/** '' where figures stand alone. */
export function signOf(key: MeasureKey, unit: TempUnit, { text }: SeasonWords): string {
  const { kind } = shownAs[key];
  if (kind === 'hours') return 'h';
  if (kind === 'litres') return 'L';
  if (kind === 'depth') return 'cm';
  if (kind === 'days') return text('page-seasons.unit.days');
  if (kind === 'share') return text('page-seasons.unit.share');
  if (kind === 'temperature') return unitSigns[unit];
  return kind === 'degree-hours' ? `${unitSigns[unit]} h` : '';
}

export function cellOf(key: MeasureKey, value: number | null, unit: TempUnit): string {
  if (value === null) return '–';
  const { kind, decimals } = shownAs[key];
  if (kind === 'temperature') return plainNumber(tempIn(unit, value), decimals);
  if (kind === 'degree-hours') return plainNumber(differenceIn(unit, value), decimals);
  return plainNumber(inHundreds(kind) ? value * 100 : value, decimals);
}

/** Shares in per cent, metres in centimetres. */
const inHundreds = (kind: MeasureShown['kind']): boolean => kind === 'share' || kind === 'depth';

/** A figure with its unit. @example figureOf('peakC', 46.1, 'C', words) // => "46.1 °C" */
export function figureOf(key: MeasureKey, value: number, unit: TempUnit, words: SeasonWords): string {
  const sign = signOf(key, unit, words);
  return sign === '' ? cellOf(key, value, unit) : `${cellOf(key, value, unit)}${noBreak}${sign}`;
}

/** @example amountOf('comfortH', 'C', words)(9.4) // => "9 h" */
export function amountOf(key: MeasureKey, unit: TempUnit, words: SeasonWords): (difference: number) => string {
  const { kind, decimals } = shownAs[key];
  const sign = kind === 'share' ? words.text('page-seasons.unit.points') : signOf(key, unit, words);
  return (value) => {
    const shown =
      kind === 'temperature' || kind === 'degree-hours'
        ? differenceIn(unit, value)
        : inHundreds(kind)
          ? value * 100
          : value;
    const number = plainNumber(shown, Math.abs(shown) < 3 ? Math.max(1, decimals) : decimals);
    return sign === '' ? number : `${number}${noBreak}${sign}`;
  };
}
