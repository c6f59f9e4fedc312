/** How messages on topics of other devices become readings. */
import { z } from 'zod';
import { refusalReasons } from '../errors.ts';
import { fieldCode } from '../messages/field-code.ts';
import { messageSchema } from '../messages/message.ts';
import { nameSchema } from '../names.ts';
import { foreignUnits, quantitySchema } from '../quantity.ts';
import { instantSchema } from './time.ts';

/** No unit is further than that from another. */
const mostScale = 1e9;
/** Values of one message that one mapping reads. */
const mostMappedValues = 32;

/** JSON Pointer (RFC 6901). */
const pointerSchema = z.string().max(512);
/** A name, or with {1}, {2} ... for what a wildcard stood for, and {/id} for what the message has at that pointer. */
const nameTemplateSchema = z.string().max(128);
const filterSchema = z.string().min(1).max(512);

const mappedValueSchema = z.object({
  /** To the value; "" takes the whole payload. Counts from the member on where there is `each`. */
  pointer: pointerSchema,
  /** A list, or an object, of which every member is looked at by itself; "" for the whole payload. */
  each: pointerSchema.optional(),
  /** Of these, the one that has this text or number at this place. */
  only: z.object({ pointer: pointerSchema, is: z.string().max(128) }).optional(),
  quantity: quantitySchema,
  /** A text that says a unit itself, such as "41.5 °C", is read in that. */
  unit: z.enum(foreignUnits),
  /** The number found is multiplied by this before its unit is read. */
  scale: z
    .number()
    .refine((scale) => scale !== 0 && Math.abs(scale) <= mostScale, fieldCode('field.scale'))
    .default(1),
  /** Added after that, before its unit is read. */
  offset: z.number().min(-mostScale).max(mostScale).default(0),
  /** Where it is of another probe than the other values. */
  probe: nameTemplateSchema.optional(),
});
export type MappedValue = z.output<typeof mappedValueSchema>;

const availabilitySchema = z.object({
  /** Its wildcards stand for the same as the first of the mapping's. */
  filter: filterSchema,
  pointer: pointerSchema.default(''),
  online: z.string().min(1).max(64),
  offline: z.string().min(1).max(64),
});

/** All but where it counts: as the journal keeps it. */
export const mappingReadsSchema = z.object({
  /** None: what comes there is not for us. */
  values: z.array(mappedValueSchema).max(mostMappedValues),
  /** To the time of measuring, in the member or else in the whole message; absent = time of arrival. */
  timePointer: pointerSchema.optional(),
  /** IANA name of the zone whose clocks a time without an offset was read from. */
  timeZone: z.string().min(1).max(64).optional(),
  availability: availabilitySchema.optional(),
});

const mappingFieldsSchema = mappingReadsSchema.extend({
  /** MQTT topic filter (MQTT 5 section 4.7), in which + may also stand for a part of a level. */
  filter: filterSchema,
  site: nameTemplateSchema.default(''),
  probe: nameTemplateSchema.default(''),
});
export type MappingInput = z.output<typeof mappingFieldsSchema>;

/** A mapping of a single value may say it beside its filter. */
export const mappingInputSchema = z.preprocess(withValues, mappingFieldsSchema);

function withValues(body: unknown): unknown {
  if (typeof body !== 'object' || body === null || 'values' in body || !('pointer' in body)) return body;
  const { pointer, quantity, unit, scale, offset, ...mapping } = body as Record<string, unknown>;
  return { ...mapping, values: [{ pointer, quantity, unit, scale, offset }] };
}

export const mappingSchema = mappingFieldsSchema.extend({ id: z.string() });
export type Mapping = z.output<typeof mappingSchema>;
export const mappingsAnswerSchema = z.object({ mappings: z.array(mappingSchema) });

export const mappingTrialSchema = z.object({
  results: z.array(
    z.object({
      topic: z.string(),
      payload: z.string(),
      /** It lay in the broker for nobody knows how long, and says no time: nothing of it is kept. */
      isOfUnknownAge: z.boolean(),
      /** What it would become. */
      readings: z.array(
        z.object({
          site: nameSchema,
          probe: nameSchema,
          quantity: quantitySchema,
          value: z.number(),
          at: instantSchema,
        }),
      ),
      refusals: z.array(
        z.object({
          reason: z.enum(refusalReasons),
          message: z.string(),
          messages: z.object({ message: messageSchema }),
        }),
      ),
    }),
  ),
});
export type MappingTrial = z.output<typeof mappingTrialSchema>;
