/** Figures that plans are asked with, each with what it must be. */
import { z } from 'zod';
import { fieldCode } from '../../messages/field-code.ts';
import { ingredients } from '../../profiles/material-names.ts';

export const amount = (max = 1_000_000) => z.number().min(0.001).max(max);
export const amountOrNone = z.number().min(0).max(1_000_000);
const fractionWords = fieldCode('field.fraction');
export const moisture = z.number(fractionWords).min(0, fractionWords).max(0.95, fractionWords);
/** Above this the water asked for grows beyond all sense: at 90 % it is nine times the dry matter. */
const targetWords = fieldCode('field.target-fraction');
export const target = z.number(targetWords).min(0.05, targetWords).max(0.9, targetWords);
const density = { leastKgM3: 20, mostKgM3: 2500 };
export const bulkDensity = z
  .number()
  .refine((kgM3) => kgM3 >= density.leastKgM3 && kgM3 <= density.mostKgM3, {
    error: fieldCode('field.density'),
    params: { ...density, sampleL: 10 },
  })
  .meta({ minimum: density.leastKgM3, maximum: density.mostKgM3 });
const dryShareWords = fieldCode('field.dry-share');
export const dryShare = z.number(dryShareWords).gt(0, dryShareWords).max(1, dryShareWords);
export const depth = z.number().min(0.001).max(3);
export const airC = z.number().min(-40).max(60);

export const ingredientSchema = z.enum(ingredients);

export const neededForOther = fieldCode('field.needed-for-other');
