/** What the heading of a column names: a quantity, and a unit that is not ours. */
import type { QuantityFacts } from '../../../shared/quantities/quantity-facts.ts';
import { type Quantity, quantities, quantityFacts } from '../../../shared/quantity.ts';

/** By what a quantity is called, longest first, so that nothing of a name stays behind. */
const namesOf = new Map(
  quantities.map((one) => {
    const { key, alsoCalled }: QuantityFacts = quantityFacts[one];
    return [one, [one, key.toLowerCase(), ...alsoCalled].sort((a, b) => b.length - a.length)];
  }),
);

/** What else stands in headings and is part of no probe's name. */
const fillers = new Set([
  ...quantities.flatMap((one) => Object.keys(quantityFacts[one].from).map(plain)),
  ...['pct', 'percent', 'of', 'the'],
]);

/** Lower case, without accents, signs and brackets. */
export function plain(text: string): string {
  return text
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, ' ')
    .trim();
}

/** The quantity a word names; undefined when none. */
export function namedQuantity(text: string): Quantity | undefined {
  const words = ` ${plain(text)} `;
  return quantities.find((one) => namesOf.get(one)?.some((name) => words.includes(` ${name} `)));
}

/** What is left of the plain words of a heading without the names of that quantity and without units. */
export function withoutQuantity(words: string, quantity: Quantity): string {
  let rest = ` ${words} `;
  for (const name of namesOf.get(quantity) ?? []) rest = rest.replaceAll(` ${name} `, ' ');
  return rest
    .split(' ')
    .filter((word) => !fillers.has(word))
    .join(' ');
}

/** Whether a heading says °C or °F. */
export function headingDegrees(heading: string): 'C' | 'F' | undefined {
  // Without its spaces: a pattern that looks for runs of them takes time by the square of a long one.
  const bare = heading.replace(/\s/g, '');
  if (/°F|fahrenheit|deg(rees)?F\b|[([]F[)\]]|_F$/i.test(bare)) return 'F';
  if (/°C|celsius|deg(rees)?C\b|[([]C[)\]]|_C$/i.test(bare)) return 'C';
  return undefined;
}

/** A unit in a heading that is not the one we keep. @example headingUnit('CO2 (%)', 'co2') // => '%' */
export function headingUnit(heading: string, quantity: Quantity): string | undefined {
  if (quantity === 'temperature') return headingDegrees(heading);
  const { from }: QuantityFacts = quantityFacts[quantity];
  const parts = heading.split(/[\s()[\],;:_]/).map((part) => part.toLowerCase());
  return Object.keys(from).find((unit) => from[unit]?.(1) !== 1 && parts.includes(unit.toLowerCase()));
}
