/** The figures of a plan as they stand in an address, and as the form that lays a pile takes them. */
import { z } from 'zod';
import { stages } from '../../../../shared/names.ts';
import { materials } from '../../../../shared/profiles/material-names.ts';

const figuresSchema = z.object({
  stage: z.enum(stages).catch('bran'),
  material: z.enum(materials).or(z.literal('')).catch(''),
  massKg: z.string().catch(''),
  moisturePct: z.string().catch(''),
  depthCm: z.string().catch(''),
  laidAt: z.string().catch(''),
});

/** What the address carries; anything unreadable is left empty. */
export function draftOfQuery(query: Record<string, string>) {
  return figuresSchema.parse(query);
}
