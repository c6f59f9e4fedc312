/** Amounts in the units a person chose, and as the text they read. Only text is rounded, never what is computed with. */
import type { Pour } from './pours.ts';
import { celsiusToFahrenheit, kgPerPound, litresPerUsGallon, metresPerFoot, metresPerInch } from './units.ts';

/** The units a person reads amounts in. */
export interface Units {
  readonly temperature: 'C' | 'F';
  readonly mass: 'kg' | 'lb';
  readonly volume: 'L' | 'gal';
  readonly length: 'm' | 'ft';
  /** Of a starter; mL when absent. */
  readonly starter?: Pour;
}

export const metric: Units = { temperature: 'C', mass: 'kg', volume: 'L', length: 'm' };

export interface Measure {
  readonly value: number;
  readonly unit: string;
}

/** Each name ends with the unit it takes, save the share, which is a fraction. */
export const measureKinds = [
  'massKg',
  'volumeL',
  'starterMl',
  'densityKgM3',
  'depthM',
  'rainMm',
  'lengthM',
  'areaM2',
  'rateKgM2',
  'tempC',
  'share',
  'number',
] as const;
export type MeasureKind = (typeof measureKinds)[number];

export function measure(kind: MeasureKind, value: number, units: Units): Measure {
  const kgPerMass = units.mass === 'lb' ? kgPerPound : 1;
  const litresPerVolume = units.volume === 'gal' ? litresPerUsGallon : 1;
  const feet = units.length === 'ft';
  const m2PerArea = feet ? metresPerFoot ** 2 : 1;
  switch (kind) {
    case 'massKg':
      return { value: value / kgPerMass, unit: units.mass };
    case 'volumeL':
      return { value: value / litresPerVolume, unit: volumeUnit(units) };
    case 'starterMl':
      return { value: value / (units.starter?.ml ?? 1), unit: units.starter?.sign ?? 'mL' };
    case 'densityKgM3':
      // Per litre or gallon, so that volume times density gives the mass unit chosen.
      return { value: (value / 1000 / kgPerMass) * litresPerVolume, unit: `${units.mass}/${volumeUnit(units)}` };
    case 'depthM':
      return feet ? { value: value / metresPerInch, unit: 'in' } : { value: value * 100, unit: 'cm' };
    case 'rainMm':
      return feet ? { value: value / 1000 / metresPerInch, unit: 'in' } : { value, unit: 'mm' };
    case 'lengthM':
      return feet ? { value: value / metresPerFoot, unit: 'ft' } : { value, unit: 'm' };
    case 'areaM2':
      return { value: value / m2PerArea, unit: feet ? 'ft²' : 'm²' };
    case 'rateKgM2':
      return { value: (value / kgPerMass) * m2PerArea, unit: `${units.mass}/${feet ? 'ft²' : 'm²'}` };
    case 'tempC':
      return { value: units.temperature === 'F' ? celsiusToFahrenheit(value) : value, unit: `°${units.temperature}` };
    case 'share':
      return { value: value * 100, unit: '%' };
    case 'number':
      return { value, unit: '' };
  }
}

function volumeUnit(units: Units): string {
  return units.volume === 'gal' ? 'US gal' : 'L';
}

/** So many figures, and no fewer than the whole part. @example toFigures(15142.857, 4) // => 15143 */
export function toFigures(value: number, figures: number): number {
  return Math.abs(value) >= 10 ** (figures - 1) ? Math.round(value) : Number(value.toPrecision(figures));
}

/** @example figure(19.96008) // => "19.96" */
export function figure(value: number, figures = 4): string {
  return String(toFigures(value, figures)).replace('-', '−');
}

/** @example measureText('massKg', 12, metric) // => "12 kg" */
export function measureText(kind: MeasureKind, value: number, units: Units, figures = 4): string {
  const { value: shown, unit } = measure(kind, value, units);
  return unit === '' ? figure(shown, figures) : `${figure(shown, figures)} ${unit}`;
}
