/** For which places the free weather service is asked, as an owner chose; for none unless they did. */
import { z } from 'zod';
import { mailAddressPattern } from '../mail-address.ts';
import { fieldCode } from '../messages/field-code.ts';
import { messageSchema } from '../messages/message.ts';
import { nameSchema } from '../names.ts';
import { instantSchema } from './time.ts';

/** To a hundredth of a degree, about a kilometre: as much as air needs, and no more of where somebody lives. */
const rounded = (degrees: number) => Math.round(degrees * 100) / 100;

const weatherPlaceSchema = z.object({
  site: nameSchema,
  latitude: z.number().min(-90).max(90).transform(rounded),
  longitude: z.number().min(-180).max(180).transform(rounded),
});
export type WeatherPlace = z.output<typeof weatherPlaceSchema>;

const contactSchema = z
  .string()
  .trim()
  .max(200)
  .refine(
    (text) => mailAddressPattern.test(text) || (/^https?:\/\/[\x21-\x7e]+$/.test(text) && URL.canParse(text)),
    fieldCode('field.contact-form'),
  );

export const weatherChangeSchema = z
  .object({
    /** Goes with each request, so that the service can write before it shuts somebody out. */
    contact: contactSchema.nullable(),
    places: z.array(weatherPlaceSchema).max(20),
  })
  .superRefine(({ contact, places }, context) => {
    if (places.length > 0 && contact === null)
      context.addIssue({
        code: 'custom',
        path: ['contact'],
        message: fieldCode('field.contact'),
      });
    if (new Set(places.map(({ site }) => site)).size < places.length)
      context.addIssue({ code: 'custom', path: ['places'], message: fieldCode('field.site-once') });
  });
export type WeatherChange = z.output<typeof weatherChangeSchema>;

export const weatherAnswerSchema = z.object({
  source: z.string(),
  termsUrl: z.string(),
  licenceUrl: z.string(),
  contact: z.string().nullable(),
  places: z.array(
    z.object({
      site: nameSchema,
      latitude: z.number(),
      longitude: z.number(),
      /** When it last gave an answer that could be used; null before. */
      heardAt: instantSchema.nullable(),
      /** Why it gave none the last time; null where it did. */
      problem: z.string().nullable(),
      messages: z.object({ problem: messageSchema.nullable() }),
    }),
  ),
});
export type WeatherAnswer = z.infer<typeof weatherAnswerSchema>;
