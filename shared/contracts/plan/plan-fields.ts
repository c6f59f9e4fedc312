/** Figures that plans are asked with, each with what it must be. */
import { z } from 'zod';
import { ingredients } from '../../profiles/material-names.ts';

export const amount = (what: string, max = 1_000_000) =>
  z.number(`must be ${what}, as a number`).min(0.001, 'must be at least 0.001').max(max, `must be at most ${max}`);
export const amountOrNone = (what: string) =>
  z.number(`must be ${what}, as a number`).min(0, 'must not be negative').max(1_000_000, 'must be at most 1000000');
const fractionWords = 'must be a fraction of the wet mass from 0 to 0.95: 60 % is 0.6';
export const moisture = z.number(fractionWords).min(0, fractionWords).max(0.95, fractionWords);
/** Above this the water asked for grows beyond all sense: at 90 % it is nine times the dry matter. */
const targetWords = 'must be a fraction of the wet mass from 0.05 to 0.9: 60 % is 0.6';
export const target = z.number(targetWords).min(0.05, targetWords).max(0.9, targetWords);
const densityWords = 'must be from 20 to 2500 kg/m3: weigh 10 L and multiply its kilograms by 100';
export const bulkDensity = z.number(densityWords).min(20, densityWords).max(2500, densityWords);
const dryShareWords = 'must be a fraction of the dry mass above 0 and up to 1: 45 % is 0.45';
export const dryShare = z.number(dryShareWords).gt(0, dryShareWords).max(1, dryShareWords);
export const depth = z
  .number('must be metres, as a number')
  .min(0.001, 'must be at least 0.001')
  .max(3, 'must be at most 3');
export const airC = z.number('must be °C, as a number').min(-40, 'must be at least -40').max(60, 'must be at most 60');

export const ingredientSchema = z.enum(ingredients, `must be one of ${ingredients.join(', ')}`);

export const neededForOther = 'is needed for a material we know nothing of';
