/** What a key of the broker allows. It never holds a secret. */
import { z } from 'zod';
import { fieldCode } from './messages/field-code.ts';
import { nameSchema } from './names.ts';

/** What a key may hear besides its own topics: nothing, what warns (for sirens and lamps), or everything. */
export const keyHearings = ['own', 'warnings', 'everything'] as const;
export type KeyHearing = (typeof keyHearings)[number];

/** Most foreign topic filters of one key. */
export const mostForeignFilters = 20;

/** Foreign means: not ours, and not everything. */
const foreignFilterSchema = z
  .string()
  .min(1)
  .max(512)
  .refine((filter) => !/^[+#$/]/.test(filter), fieldCode('field.first-level'));

export const keyReachSchema = z
  .object({
    /** Speaks for this site; null for a key that only listens. */
    site: nameSchema.nullable(),
    /** Speaks for this probe alone; null for every probe of the site. */
    probe: nameSchema.nullable(),
    /** Topics beside ours that it may publish on, as filters with + and #. */
    foreign: z.array(foreignFilterSchema).max(mostForeignFilters),
    hears: z.enum(keyHearings),
  })
  .refine(({ site, probe }) => probe === null || site !== null, {
    path: ['site'],
    message: fieldCode('field.site-of-probe'),
  });
export type KeyReach = z.infer<typeof keyReachSchema>;

/** A key as the auth policy needs it. */
export interface KnownKey extends KeyReach {
  /** Also the MQTT user name. */
  readonly id: string;
  /** SHA-256 of the secret, hexadecimal. */
  readonly secretSha256: string;
}
