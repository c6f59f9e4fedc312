/**
 * A SenML pack becomes records that stand alone (RFC 8428 section 4.6). It never knows which names or units are ours
 * (see senml.ts).
 */

import { z } from 'zod';
import { ReadingError } from '../../shared/errors.ts';
import { message } from '../../shared/messages/message.ts';
import { foundSaid } from './decoded.ts';

/** Fields of RFC 8428 sections 4.1 and 4.2; others are ignored unless their label ends in "_" (section 4.4). */
const recordSchema = z.object({
  bn: z.string().optional(),
  bt: z.number().optional(),
  bu: z.string().optional(),
  bv: z.number().optional(),
  bs: z.number().optional(),
  bver: z.int().positive().optional(),
  n: z.string().optional(),
  u: z.string().optional(),
  v: z.number().optional(),
  vs: z.string().optional(),
  vb: z.boolean().optional(),
  vd: z
    .string()
    .regex(/^[A-Za-z0-9_-]*={0,2}$/)
    .optional(),
  s: z.number().optional(),
  t: z.number().optional(),
  ut: z.number().optional(),
});
type SenmlRecord = z.infer<typeof recordSchema>;

export interface ResolvedRecord {
  /** Place in the pack, from 0. */
  readonly index: number;
  readonly name: string;
  readonly unit: string | undefined;
  readonly value: number | string | boolean | undefined;
  readonly sum: number | undefined;
  readonly atMs: number;
  /** Whether the time was given relative to now, i.e. to the arrival. */
  readonly relative: boolean;
  /** Latest time until the next record of this name [s], when given. */
  readonly updateS: number | undefined;
}

/** Section 4.4: the version defined by RFC 8428; a pack of a later one must not be used. */
const knownVersion = 10;
/** Section 4.5.3: a time below 2^28 s is relative to now, from there on it is since 1970. */
const relativeBelowS = 2 ** 28;
/** Section 4.5.1: letters, digits and - : . / _ and a letter or digit first. */
const namePattern = /^[A-Za-z0-9][A-Za-z0-9\-:./_]*$/;

export function resolveSenml(
  pack: readonly unknown[],
  nowMs: number,
): (ResolvedRecord | ReadingError)[] | ReadingError {
  if (pack.length === 0) return notSenml('refusal.senml.empty', '', pack);
  const resolved: (ResolvedRecord | ReadingError)[] = [];
  const base = { name: '', timeS: 0, unit: undefined as string | undefined, value: 0, sum: 0 };
  let version: number | undefined;

  for (const [index, raw] of pack.entries()) {
    const where = `/${index}`;
    if (typeof raw !== 'object' || raw === null || Array.isArray(raw)) {
      return notSenml('refusal.senml.record', where, raw);
    }
    for (const label in raw) {
      if (label.endsWith('_')) return notSenml('refusal.senml.label', `${where}/${label}`, raw);
    }
    const parsed = recordSchema.safeParse(raw);
    const record = parsed.success ? parsed.data : undefined;
    if (!parsed.success) {
      const field = String(parsed.error.issues[0]?.path[0]);
      // A broken base field spoils every record after it; a broken field of its own only this one.
      const error = notSenml('refusal.senml.field', `${where}/${field}`, valueAt(raw, field));
      if (field.startsWith('b')) return error;
      resolved.push(error);
    }

    const bases = record ?? recordSchema.safeParse(onlyBases(raw)).data;
    if (bases === undefined) return notSenml('refusal.senml.bases', where, raw);
    if (bases.bver !== undefined) {
      if (bases.bver > knownVersion) {
        return wrongVersion('refusal.senml.version', where, knownVersion, bases.bver);
      }
      if (version !== undefined && version !== bases.bver) {
        return wrongVersion('refusal.senml.versions', where, version, bases.bver);
      }
      version = bases.bver;
    }
    base.name = bases.bn ?? base.name;
    base.timeS = bases.bt ?? base.timeS;
    base.unit = bases.bu ?? base.unit;
    base.value = bases.bv ?? base.value;
    base.sum = bases.bs ?? base.sum;
    if (record !== undefined) resolved.push(resolveRecord(record, index, base, nowMs));
  }
  return resolved;
}

function resolveRecord(
  record: SenmlRecord,
  index: number,
  base: { name: string; timeS: number; unit: string | undefined; value: number; sum: number },
  nowMs: number,
): ResolvedRecord | ReadingError {
  const name = base.name + (record.n ?? '');
  if (!namePattern.test(name)) {
    return notSenml('refusal.senml.name-form', `/${index}/n`, name);
  }
  const values = [record.v, record.vs, record.vb, record.vd].filter((value) => value !== undefined);
  // Section 4.2: exactly one value, or none beside a sum.
  if (values.length > 1) return notSenml('refusal.senml.one-value', `/${index}`, record);
  const sum = record.s === undefined ? undefined : base.sum + record.s;
  if (values.length === 0 && sum === undefined) {
    return new ReadingError('missing-field', message('refusal.senml.no-value', { indexCount: index }));
  }
  const timeS = base.timeS + (record.t ?? 0);
  const relative = timeS < relativeBelowS;
  return {
    index,
    name,
    unit: record.u ?? base.unit,
    value: record.v === undefined ? values[0] : base.value + record.v,
    sum,
    atMs: Math.round(relative ? nowMs + timeS * 1000 : timeS * 1000),
    relative,
    updateS: record.ut,
  };
}

type SenmlCode = `refusal.senml.${'empty' | 'record' | 'label' | 'field' | 'bases' | 'name-form' | 'one-value'}`;

function notSenml(code: SenmlCode, pointerText: string, found: unknown): ReadingError {
  return new ReadingError('not-senml', message(code, { pointerText, foundPart: foundSaid(found) }));
}

function wrongVersion(
  code: `refusal.senml.${'version' | 'versions'}`,
  where: string,
  versionCount: number,
  found: number,
): ReadingError {
  const said = message(code, { pointerText: `${where}/bver`, versionCount, foundPart: foundSaid(found) });
  return new ReadingError('not-senml', said);
}

function valueAt(raw: object, field: string): unknown {
  return (raw as Record<string, unknown>)[field];
}

function onlyBases(raw: object): object {
  return Object.fromEntries(Object.entries(raw).filter(([label]) => label.startsWith('b')));
}
