/** What InfluxDB or the way to it reports, as a sentence a person can act on. */
import { HttpError } from '@influxdata/influxdb-client';
import { z } from 'zod';
import { StoreError } from '../../errors.ts';

/** The request was given up after so long. */
export class NoAnswer extends Error {
  override readonly name = 'NoAnswer';
  constructor(readonly afterMs: number) {
    super(`no answer within ${afterMs / 1000} s`);
  }
}

/** What answers there is no InfluxDB, or not as we know it. */
export class StrangeAnswer extends Error {
  override readonly name = 'StrangeAnswer';
}

/** It answered that a statement cannot be carried out. */
export class QueryRefused extends Error {
  override readonly name = 'QueryRefused';
}

/** The body of a refusal: `error` in generations 1 and 3, `message` in 2; `data` names lines in 3. */
const refusalSchema = z.object({
  error: z.string().optional(),
  message: z.string().optional(),
  data: z
    .array(z.object({ original_line: z.string().optional(), error_message: z.string().optional() }))
    .optional()
    .catch(undefined),
});

const longestWaitMs = 300_000;

/** @param attempt as in "Cannot <attempt> as ...". */
export function influxError(attempt: string, where: string, cause: unknown): StoreError {
  if (cause instanceof StoreError) return cause;
  const waitMs = retryAfterMs(cause);
  return new StoreError(`Cannot ${attempt} as ${where} ${reasonOf(cause)}`, {
    cause,
    ...(waitMs === undefined ? {} : { retryAfterMs: waitMs }),
  });
}

export function reasonOf(cause: unknown): string {
  if (cause instanceof HttpError) return `answered ${cause.statusCode}: ${refusalOf(cause)}`;
  if (cause instanceof NoAnswer) return `gave ${cause.message}`;
  if (cause instanceof StrangeAnswer) return `answered with ${cause.message}`;
  if (cause instanceof QueryRefused) return `answered: ${cause.message}`;
  const code = codeOf(cause);
  if (code !== undefined) return `cannot be reached: ${code}`;
  return `failed: ${cause instanceof Error ? cause.message : String(cause)}`;
}

/** What a refused request says, with the first line that was at fault where the database names it. */
export function refusalOf({ body, statusMessage }: HttpError): string {
  const parsed = refusalSchema.safeParse(parseJson(body ?? ''));
  if (!parsed.success) return (body ?? '').trim().slice(0, 300) || (statusMessage ?? 'no reason given');
  const { error, message, data } = parsed.data;
  const line = data?.[0];
  const at =
    line === undefined ? '' : `, first ${line.original_line ?? 'a line'}: ${line.error_message ?? 'no reason given'}`;
  return `${error ?? message ?? statusMessage ?? 'no reason given'}${at}`.slice(0, 600);
}

/** Whether some of a batch may have been taken, and the rest never will be as it stands. */
export function isRefusedWrite(cause: unknown): cause is HttpError {
  return cause instanceof HttpError && (cause.statusCode === 400 || cause.statusCode === 422);
}

/** RFC 9110, 10.2.3: seconds, or a date. */
function retryAfterMs(cause: unknown, nowMs = Date.now()): number | undefined {
  if (!(cause instanceof HttpError)) return undefined;
  const given = cause.headers?.['retry-after'];
  if (typeof given !== 'string' || given === '') return undefined;
  const waitMs = /^\d+$/.test(given) ? Number(given) * 1000 : Date.parse(given) - nowMs;
  return Number.isFinite(waitMs) && waitMs > 0 ? Math.min(waitMs, longestWaitMs) : undefined;
}

/** The code of a failed connection, such as ECONNREFUSED. */
function codeOf(cause: unknown): string | undefined {
  const code = cause instanceof Error ? (cause as NodeJS.ErrnoException).code : undefined;
  return typeof code === 'string' && code !== '' ? code : undefined;
}

function parseJson(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}
