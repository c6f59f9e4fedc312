/**
 * A body read and checked as every route's is, but in the thread of the job: to make a text of 20 MB and take it apart
 * holds a thread for a tenth of a second.
 */
import { parse } from 'secure-json-parse';
import type { z } from 'zod';
import { type Message, message } from '../../../shared/messages/message.ts';
import { type FieldProblem, fieldProblem, saidOfFields } from '../../field-problem.ts';
import { holdsNul } from '../holds-nul.ts';

/** Why a body cannot be used, as the answer says it. */
export interface BodyRefused {
  readonly kind: 'refused';
  readonly said: Message;
  readonly fields?: readonly FieldProblem[];
}

const refused = (said: Message): BodyRefused => ({ kind: 'refused', said });

/** @param body JSON in UTF-8. */
export function readBody<Schema extends z.ZodType>(body: Uint8Array, schema: Schema): z.output<Schema> | BodyRefused {
  if (body.length === 0) return refused(message('problem.empty-json'));
  let sent: unknown;
  try {
    sent = parse(Buffer.from(body.buffer, body.byteOffset, body.byteLength));
  } catch {
    return refused(message('problem.not-json'));
  }
  if (holdsNul(sent)) return refused(message('problem.holds-nul'));
  const found = schema.safeParse(sent);
  if (found.success) return found.data;
  const fields = found.error.issues.map((issue) => fieldProblem({ ...issue }));
  return { kind: 'refused', said: saidOfFields(fields, 'other'), fields };
}
