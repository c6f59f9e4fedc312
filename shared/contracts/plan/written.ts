/** What every plan carries besides its figures: sentences, remarks, cautions, working; and the units it is asked in. */
import { z } from 'zod';
import { measureKinds } from '../../measure.ts';
import { messageSchema } from '../../messages/message.ts';

export const planUnitsSchema = z
  .object({
    mass: z.enum(['kg', 'lb']).default('kg'),
    volume: z.enum(['L', 'gal']).default('L'),
    length: z.enum(['m', 'ft']).default('m'),
    temperature: z.enum(['C', 'F']).default('C'),
  })
  .prefault({});
export type PlanUnits = z.output<typeof planUnitsSchema>;

/** What a sentence or a name was made of: its code and parameters, by the name of the field that holds it. */
export const messagesOf = <Field extends string>(...fields: Field[]) =>
  z.object(Object.fromEntries(fields.map((field) => [field, messageSchema])) as Record<Field, typeof messageSchema>);

/** An amount in SI units, as its kind says. */
const termSchema = z.object({ kind: z.enum(measureKinds), value: z.number() });

/** One line of the working: `sum` is the arithmetic in words and figures, `value` what it comes to; `terms` is the same sum in SI units. */
const workingStepSchema = z.object({
  what: z.string(),
  sum: z.string(),
  value: z.number(),
  unit: z.string(),
  terms: z.array(z.union([z.string(), termSchema])),
  messages: messagesOf('what'),
});

/** A figure nobody gave, and where the one that was taken comes from. */
const defaultTakenSchema = z.object({
  what: z.string(),
  value: z.number(),
  unit: z.string(),
  origin: z.string(),
  messages: messagesOf('what', 'origin'),
});

const planTones = ['calm', 'watch', 'act'] as const;
export type PlanTone = (typeof planTones)[number];
const remarkSchema = z.object({ tone: z.enum(planTones), says: z.string(), messages: messagesOf('says') });

/** What every plan carries besides its figures. */
export const writtenSchema = z.object({
  /** The plan in one or two plain sentences. */
  says: z.string(),
  remarks: z.array(remarkSchema),
  cautions: z.array(z.string()),
  working: z.array(workingStepSchema),
  defaults: z.array(defaultTakenSchema),
  messages: messagesOf('says').extend({ cautions: z.array(messageSchema) }),
});
export type WrittenView = z.infer<typeof writtenSchema>;
