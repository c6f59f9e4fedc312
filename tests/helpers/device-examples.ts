/** The example messages of `tests/data/devices`, with what each must become. */
import { readdirSync, readFileSync } from 'node:fs';
import { z } from 'zod';

const folder = new URL('../data/devices/', import.meta.url);

const exampleSchema = z.strictObject({
  /** A key of `sources`. */
  source: z.string(),
  topic: z.string(),
  payload: z.union([z.string(), z.record(z.string(), z.unknown())]),
  retained: z.boolean().default(false),
  /** When it comes in; 20:00 of 29 November 2026 where nothing is said. */
  now: z.iso.datetime().default('2026-11-29T20:00:00.000Z'),
  /** When its readings were measured; `now` where nothing is said. */
  at: z.iso.datetime().optional(),
  probes: z.record(z.string(), z.record(z.string(), z.number())),
  /** Probes that are offline after it. */
  offline: z.array(z.string()).default([]),
  why: z.string().optional(),
});
export type DeviceExample = z.infer<typeof exampleSchema>;

const fileSchema = z.strictObject({
  family: z.string(),
  sources: z.record(z.string(), z.string()),
  examples: z.array(exampleSchema).min(1),
});

export const deviceExamples = readdirSync(folder)
  .filter((name) => name.endsWith('.json'))
  .sort()
  .map((name) => fileSchema.parse(JSON.parse(readFileSync(new URL(name, folder), 'utf8'))));

export const payloadText = ({ payload }: Pick<DeviceExample, 'payload'>): string =>
  typeof payload === 'string' ? payload : JSON.stringify(payload);
