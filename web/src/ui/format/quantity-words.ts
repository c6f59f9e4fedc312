/** What probes measure, by name and by value, as pages write it. */
import { quantityTexts } from '../../../../shared/messages/made/en/quantity.ts';
import type { QuantityFacts } from '../../../../shared/quantities/quantity-facts.ts';
import { type PileQuantity, pileQuantities, type Quantity, quantityFacts } from '../../../../shared/quantity.ts';
import { formatTemp, plainNumber, type TempUnit } from './temperature.ts';

/** Has a chart of its own; temperatures stand in the chart of heat, with what is expected. */
export type ChartedQuantity = Exclude<PileQuantity, 'temperature'>;

export const chartedQuantities = pileQuantities.filter((one): one is ChartedQuantity => one !== 'temperature');

/** For lists to choose from. @example quantityName('moisture') // => "moisture of a soil probe, by volume" */
export function quantityName(quantity: Quantity): string {
  return quantityTexts[`quantity.${quantity}.name`];
}

/** Beside a figure. @example shortName('moisture') // => "moisture" */
export function shortName(quantity: Quantity): string {
  return quantityTexts[`quantity.${quantity}.short`];
}

export function chartTitle(quantity: ChartedQuantity): string {
  return quantityTexts[`quantity.${quantity}.chart`];
}

/** What to bear in mind of its figures; undefined where there is nothing. */
export function quantityHint(quantity: ChartedQuantity): string | undefined {
  const code = `quantity.${quantity}.hint`;
  return (quantityTexts as Readonly<Record<string, string>>)[code];
}

export function signOf(quantity: Exclude<Quantity, 'temperature'>): string {
  return quantityTexts[`quantity.${quantity}.sign`];
}

/** @example figure('humidity', 102.7) // => "100" */
export function figure(quantity: Quantity, value: number): string {
  const { decimals, within }: QuantityFacts['shown'] = quantityFacts[quantity].shown;
  const [min, max] = within ?? [value, value];
  return plainNumber(Math.min(max, Math.max(min, value)), decimals);
}

/** @example valueWords('humidity', 98.2, 'C') // => "98 %" */
export function valueWords(quantity: Quantity, value: number, unit: TempUnit): string {
  return quantity === 'temperature' ? formatTemp(value, unit) : `${figure(quantity, value)}\u00a0${signOf(quantity)}`;
}

/** With its name where the sign does not tell it. @example readingWords('humidity', 98.2, 'C') // => "humidity 98 %" */
export function readingWords(quantity: Quantity, value: number, unit: TempUnit): string {
  const shown = valueWords(quantity, value, unit);
  return quantity === 'temperature' ? shown : `${shortName(quantity)} ${shown}`;
}
