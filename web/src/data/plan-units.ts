/** The units this person measures in, remembered in this browser, and sums between them and ours. */
import { z } from 'zod';
import type { PlanUnits } from '../../../shared/contracts/plan.ts';
import { type MeasureKind, measure } from '../../../shared/measure.ts';
import { fahrenheitToCelsius } from '../../../shared/units.ts';
import { unitRead, usePrefs } from './prefs.ts';
import { readNumber } from './read-number.ts';
import { recall, remember } from './remembered.ts';
import { createStore, useStore } from './store.ts';

/** In which units amounts were typed, where they are kept as typed. */
export const typedUnitsSchema = z.object({
  mass: z.enum(['kg', 'lb']),
  volume: z.enum(['L', 'gal']),
  length: z.enum(['m', 'ft']),
  temperature: z.enum(['C', 'F']),
});
const { mass, volume, length } = typedUnitsSchema.shape;
const keptSchema = z.object({ mass: mass.catch('kg'), volume: volume.catch('L'), length: length.catch('m') });
export type KeptUnits = z.infer<typeof keptSchema>;

const key = 'branhearth.units';

export function readUnits(text: string | null): KeptUnits {
  let parsed: unknown;
  try {
    parsed = JSON.parse(text ?? '{}');
  } catch {
    parsed = {};
  }
  return keptSchema.catch(() => keptSchema.parse({})).parse(parsed);
}

const kept = createStore<KeptUnits>(readUnits(recall(key)));

export function changeUnits(change: Partial<KeptUnits>): void {
  const next = { ...kept.get(), ...change };
  kept.set(next);
  remember(key, JSON.stringify(next));
}

export function usePlanUnits(): PlanUnits {
  const { unit } = usePrefs();
  const units = useStore(kept, (value) => value);
  return { ...units, temperature: unit };
}

/** The same at this moment, for what is worded once. */
export const unitsNow = (): PlanUnits => ({ ...kept.get(), temperature: unitRead() });

/** @example fromUnits('massKg', 25, { mass: 'lb', ... }) // => 11.33980925 */
export function fromUnits(kind: MeasureKind, value: number, units: PlanUnits): number {
  // 105.8 °F is 41 °C, not 40.99999999999999.
  if (kind === 'tempC') return units.temperature === 'F' ? Number(fahrenheitToCelsius(value).toFixed(6)) : value;
  // 60 % is 0.6, not 0.6000000000000001.
  return Number((value / measure(kind, 1, units).value).toPrecision(14));
}

export function readMeasure(kind: MeasureKind, text: string, units: PlanUnits): number | undefined {
  const value = readNumber(text);
  return value === undefined ? undefined : fromUnits(kind, value, units);
}

/** So many figures as a person would write down again. @example typed('depthM', 0.3, metric) // => "30" */
export function typed(kind: MeasureKind, value: number | undefined, units: PlanUnits, figures = 4): string {
  if (value === undefined) return '';
  return String(Number(measure(kind, value, units).value.toPrecision(figures)));
}

export function unitOf(kind: MeasureKind, units: PlanUnits): string {
  return measure(kind, 1, units).unit;
}

/** What was typed in other units; an unreadable text stays as it is. */
export function restated(kind: MeasureKind, text: string, before: PlanUnits, after: PlanUnits): string {
  if (unitOf(kind, before) === unitOf(kind, after)) return text;
  const value = readMeasure(kind, text, before);
  return value === undefined || Number.isNaN(value) ? text : typed(kind, value, after);
}
