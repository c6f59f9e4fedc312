/** What came in and was refused, what came in on foreign topics, and how those are mapped. */
import { z } from 'zod';
import { refusalReasons } from '../errors.ts';
import { fieldCode } from '../messages/field-code.ts';
import { messageSchema } from '../messages/message.ts';
import { nameSchema } from '../names.ts';
import { foreignUnits, quantitySchema } from '../quantity.ts';
import { instantSchema } from './time.ts';

export const refusalSchema = z.object({
  reason: z.enum(refusalReasons),
  /** What the reason means and what to do about it. */
  meaning: z.string(),
  /** The same as data. */
  messages: z.object({ meaning: messageSchema }),
  count: z.number().int(),
  last: z.object({
    at: instantSchema,
    topic: z.string(),
    /** At most 200 characters, control characters shown as escapes. */
    payload: z.string(),
    message: z.string(),
    messages: z.object({ message: messageSchema }),
  }),
});
export const refusalsAnswerSchema = z.object({
  /** Since when these are counted. */
  since: instantSchema,
  total: z.number().int(),
  refusals: z.array(refusalSchema),
});
export type RefusalsAnswer = z.infer<typeof refusalsAnswerSchema>;

/** No unit is further than that from another. */
export const mostScale = 1e9;

/** How messages on foreign topics become readings. */
export const mappingInputSchema = z.object({
  /** MQTT topic filter; + and # as in MQTT 5 section 4.7. */
  filter: z.string().min(1).max(512),
  /** JSON Pointer (RFC 6901) to the value; "" takes the whole payload. */
  pointer: z.string().max(512),
  quantity: quantitySchema,
  unit: z.enum(foreignUnits),
  /** The number found is multiplied by this before its unit is read. */
  scale: z
    .number()
    .refine((scale) => scale !== 0 && Math.abs(scale) <= mostScale, fieldCode('field.scale'))
    .default(1),
  site: nameSchema,
  /** A probe name, or with {1}, {2} ... for what the first, second ... wildcard stood for. */
  probe: z.string().min(1).max(128),
  /** JSON Pointer to the time of measuring; absent = time of arrival. */
  timePointer: z.string().max(512).optional(),
});
export type MappingInput = z.infer<typeof mappingInputSchema>;
export const mappingSchema = mappingInputSchema.extend({ id: z.string() });
export const mappingsAnswerSchema = z.object({ mappings: z.array(mappingSchema) });

export const foreignMessageSchema = z.object({ at: instantSchema, topic: z.string(), payload: z.string() });
export const foreignMessagesAnswerSchema = z.object({ messages: z.array(foreignMessageSchema) });

export const mappingTrialSchema = z.object({
  results: z.array(
    z.object({
      topic: z.string(),
      payload: z.string(),
      /** What it would become, or why it would be refused. */
      reading: z
        .object({ site: nameSchema, probe: nameSchema, quantity: quantitySchema, value: z.number(), at: instantSchema })
        .nullable(),
      refusal: z
        .object({
          reason: z.enum(refusalReasons),
          message: z.string(),
          messages: z.object({ message: messageSchema }),
        })
        .nullable(),
    }),
  ),
});
