/** The measures as columns of the table and as words of a difference. */
import type { MeasureKey } from '../../../../core/seasons/measure-keys.ts';
import { differenceIn, plainNumber, type TempUnit, tempIn, unitSigns } from '../../ui/format/temperature.ts';

export interface MeasureWords {
  readonly heading: string;
  readonly unit: (unit: TempUnit) => string;
  /** For sentences, e.g. "hours to 40 °C". */
  readonly name: (unit: TempUnit) => string;
  readonly decimals: number;
  readonly kind: 'number' | 'temperature' | 'difference' | 'share';
}

const noBreak = '\u00a0';
const at = (unit: TempUnit, tempC: number) => `${plainNumber(tempIn(unit, tempC), 0)}${noBreak}${unitSigns[unit]}`;

function measure(
  heading: string,
  unit: string,
  name: MeasureWords['name'],
  decimals = 0,
  kind: MeasureWords['kind'] = 'number',
): MeasureWords {
  const sign = { number: () => unit, share: () => '%, wet basis', temperature: (of: TempUnit) => unitSigns[of] };
  return { heading, unit: kind === 'difference' ? (of) => `${unitSigns[of]} h` : sign[kind], name, decimals, kind };
}

export const measureWords: Record<MeasureKey, MeasureWords> = {
  hoursTo40: measure('To 40 °C', 'h', (unit) => `hours to ${at(unit, 40)}`),
  peakC: measure('Peak', '', () => 'the peak', 1, 'temperature'),
  peakAfterH: measure('Peak after', 'h', () => 'hours to the peak'),
  comfortH: measure('In the comfortable band', 'h', () => 'hours in the comfortable band'),
  above50H: measure('Above 50 °C', 'h', (unit) => `hours above ${at(unit, 50)}`, 1),
  above60H: measure('Above 60 °C', 'h', (unit) => `hours above ${at(unit, 60)}`, 1),
  activityH: measure('Activity-hours', 'h', () => 'activity-hours'),
  degreeH: measure('Degree-hours above the air', '', () => 'degree-hours above the air', 0, 'difference'),
  moistureStartFrac: measure('Moisture, start', '', () => 'moisture at the start', 0, 'share'),
  moistureEndFrac: measure('Moisture, end', '', () => 'moisture at the end', 0, 'share'),
  waterL: measure('Water added', 'L', () => 'water added', 0),
  turns: measure('Turns', '', () => 'turns', 0),
  alarmH: measure('Alarms stood', 'h', () => 'hours alarms stood', 0),
  readyDays: measure('To ready', 'days', () => 'days to ready', 1),
  airMeanC: measure('Mean air', '', () => 'the mean of the air', 1, 'temperature'),
};

/** Headings name temperatures too. */
export function headingOf(key: MeasureKey, unit: TempUnit): string {
  return measureWords[key].heading.replace(/(\d{1,3}) °C/, (_all, tempC: string) => at(unit, Number(tempC)));
}

export function cellOf(key: MeasureKey, value: number | null, unit: TempUnit): string {
  if (value === null) return '–';
  const { kind, decimals } = measureWords[key];
  if (kind === 'temperature') return plainNumber(tempIn(unit, value), decimals);
  if (kind === 'difference') return plainNumber(differenceIn(unit, value), decimals);
  return plainNumber(kind === 'share' ? value * 100 : value, decimals);
}

/** @example amountOf('comfortH', 'C')(9.4) // => "9 h" */
export function amountOf(key: MeasureKey, unit: TempUnit): (difference: number) => string {
  const { kind, decimals, unit: signOf } = measureWords[key];
  const sign = kind === 'share' ? 'points' : signOf(unit);
  return (value) => {
    const shown =
      kind === 'temperature' || kind === 'difference'
        ? differenceIn(unit, value)
        : kind === 'share'
          ? value * 100
          : value;
    const number = plainNumber(shown, Math.abs(shown) < 3 ? Math.max(1, decimals) : decimals);
    return sign === '' ? number : `${number}${noBreak}${sign}`;
  };
}
