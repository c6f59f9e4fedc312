/** The places where piles lie. */
import { z } from 'zod';
import { nameSchema } from '../names.ts';

export const siteSchema = z.object({
  id: nameSchema,
  name: z.string(),
  /** IANA name, e.g. "Europe/Lisbon"; the person's own zone when null. */
  timeZone: z.string().nullable(),
  latitude: z.number().nullable(),
  longitude: z.number().nullable(),
});
export type Site = z.infer<typeof siteSchema>;

export const sitesAnswerSchema = z.object({ sites: z.array(siteSchema) });

export const newSiteSchema = z.object({
  /** As it stands in topics; made from the name when absent. */
  id: nameSchema.optional(),
  name: z.string().trim().min(1).max(80),
  timeZone: z.string().max(64).optional(),
  latitude: z.number().min(-90).max(90).optional(),
  longitude: z.number().min(-180).max(180).optional(),
});
