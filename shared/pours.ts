/** Vessels that people measure a starter in: what each holds [mL], and its sign. */
import { litresPerUsGallon, mlPerUsFluidOunce, mlPerUsTablespoon, mlPerUsTeaspoon } from './units.ts';

export interface Pour {
  readonly ml: number;
  readonly sign: string;
}

export const pours = {
  mL: { ml: 1, sign: 'mL' },
  L: { ml: 1000, sign: 'L' },
  tsp: { ml: mlPerUsTeaspoon, sign: 'tsp' },
  tbsp: { ml: mlPerUsTablespoon, sign: 'tbsp' },
  'fl-oz': { ml: mlPerUsFluidOunce, sign: 'US fl oz' },
  gal: { ml: litresPerUsGallon * 1000, sign: 'US gal' },
} as const satisfies Record<string, Pour>;
export type PourName = keyof typeof pours;
