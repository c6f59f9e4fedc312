/** Air that somebody foretells for a site: by `POST /api/sites/:id/air-ahead`, or retained on `<root>/<site>/air-ahead`. */
import { z } from 'zod';
import { clockAheadMs } from '../clock-ahead.ts';
import type { RefusalReason } from '../errors.ts';
import { fieldCode } from '../messages/field-code.ts';
import { type Message, message, messageSchema } from '../messages/message.ts';
import { msPerDay } from '../units.ts';
import { instantInputSchema, instantSchema, toInstant } from './time.ts';

/** Nobody foretells the air further ahead than this, and an issue begins this shortly before it was made at the most. */
const furthestMs = 16 * msPerDay;
const earliestMs = msPerDay;
/** Coldest and warmest air that was ever measured near the ground, rounded outwards (WMO archive: -89.2 and 56.7 °C; from memory). */
const coldestC = -90;
const warmestC = 60;
export const mostAirPoints = 1_000;

export const airTemperatureSchema = z.number().min(coldestC).max(warmestC);

const newAirPointSchema = z.object({
  at: instantInputSchema,
  temperatureC: airTemperatureSchema,
  humidityPct: z.number().min(0).max(100).optional(),
});

export const newAirAheadSchema = z
  .object({
    /** When it was made; on arrival when absent. */
    issuedAt: instantInputSchema.optional(),
    /** By whom, as pages show it. */
    source: z.string().trim().min(1).max(60).optional(),
    points: z.array(newAirPointSchema).min(2).max(mostAirPoints),
  })
  .superRefine(({ points }, context) => {
    points.forEach(({ at }, index) => {
      if (at > (points[index - 1]?.at ?? Number.NEGATIVE_INFINITY)) return;
      const path = ['points', index, 'at'];
      context.addIssue({ code: 'custom', path, message: fieldCode('field.air.order') });
    });
  });
export type NewAirAhead = z.output<typeof newAirAheadSchema>;
/** Once it is known when it was made. */
export interface IssuedAirAhead extends Omit<NewAirAhead, 'issuedAt'> {
  readonly issuedMs: number;
}

/** What is kept of it, and whether a later issue was there already. */
export const airAheadKeptSchema = z.object({
  kept: z.boolean(),
  source: z.string(),
  messages: z.object({ source: messageSchema }).optional(),
  issuedAt: instantSchema,
  /** The last hour it covers. */
  until: instantSchema,
});
export type AirAheadKept = z.infer<typeof airAheadKeptSchema>;

export interface AirAheadProblem {
  readonly reason: RefusalReason;
  /** JSON Pointer to the field at fault. */
  readonly pointer: string;
  readonly said: Message;
}

/** What is wrong with its times as they stand to each other and to now; undefined when nothing is. */
export function airAheadProblem(
  { points }: Pick<NewAirAhead, 'points'>,
  issuedMs: number,
  nowMs: number,
): AirAheadProblem | undefined {
  const lastAt = `/points/${points.length - 1}/at`;
  const firstMs = points[0]?.at ?? issuedMs;
  const lastMs = points.at(-1)?.at ?? issuedMs;
  const found = (atMs: number) => ({ foundText: toInstant(atMs) });
  if (issuedMs > nowMs + clockAheadMs)
    return { reason: 'future-time', pointer: '/issuedAt', said: message('field.air.future', found(issuedMs)) };
  if (firstMs < issuedMs - earliestMs)
    return {
      reason: 'bad-time',
      pointer: '/points/0/at',
      said: message('field.air.before-issue', found(firstMs)),
    };
  if (lastMs > issuedMs + furthestMs)
    return {
      reason: 'future-time',
      pointer: lastAt,
      said: message('field.air.far', found(lastMs)),
    };
  if (lastMs <= nowMs) return { reason: 'bad-time', pointer: lastAt, said: message('field.air.past', found(lastMs)) };
  return undefined;
}
