/**
 * Instants as the API carries them.
 *
 * Out: RFC 3339 in UTC. In: RFC 3339 with any offset, or epoch seconds or milliseconds.
 */
import { z } from 'zod';
import { fieldCode } from '../messages/field-code.ts';

/** An instant in an answer, e.g. "2031-04-05T06:07:08.000Z". */
export const instantSchema = z.iso.datetime({ offset: true });

/** Below this a bare number is seconds, from it on milliseconds: 1e11 s is the year 5138, 1e11 ms is March 1973. */
const millisecondsFrom = 100_000_000_000;

/** An instant in a request; becomes epoch ms. */
export const instantInputSchema = z.union([z.string().max(40), z.number()]).transform((input, context) => {
  const atMs = parseInstant(input);
  if (atMs === undefined) {
    context.addIssue({
      code: 'custom',
      message: fieldCode('field.instant'),
    });
    return z.NEVER;
  }
  return atMs;
});

const rfc3339 = /^(\d{4})-(\d{2})-(\d{2})[Tt ](\d{2}):(\d{2}):(\d{2})(\.\d{1,9})?([Zz]|[+-]\d{2}:\d{2})$/;

/** Epoch ms of an RFC 3339 string, or of epoch seconds or milliseconds as number or digits; undefined when it is neither. */
export function parseInstant(input: string | number): number | undefined {
  if (typeof input === 'number') return fromEpoch(input);
  if (/^-?\d+(\.\d+)?$/.test(input)) return fromEpoch(Number(input));
  const parts = rfc3339.exec(input);
  if (!parts) return undefined;
  const atMs = Date.parse(input.replace(' ', 'T').toUpperCase());
  if (Number.isNaN(atMs)) return undefined;
  // Date.parse rolls 31 April over to 1 May; a day that does not exist is refused instead.
  const daysInMonth = new Date(Date.UTC(Number(parts[1]), Number(parts[2]), 0)).getUTCDate();
  return Number(parts[3]) <= daysInMonth ? atMs : undefined;
}

function fromEpoch(value: number): number | undefined {
  if (!Number.isFinite(value) || value <= 0) return undefined;
  const atMs = Math.round(value < millisecondsFrom ? value * 1000 : value);
  return atMs <= 8_640_000_000_000_000 ? atMs : undefined;
}

export function toInstant(atMs: number): string {
  return new Date(atMs).toISOString();
}
