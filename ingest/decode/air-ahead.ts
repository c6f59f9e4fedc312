/** Air foretold for a site, from the payload of its topic. */

import {
  type AirAheadProblem,
  airAheadProblem,
  type IssuedAirAhead,
  newAirAheadSchema,
} from '../../shared/contracts/air-ahead.ts';
import { ReadingError } from '../../shared/errors.ts';
import { type FieldIssue, fieldFault } from '../../shared/messages/field-fault.ts';
import { message } from '../../shared/messages/message.ts';
import type { Arrival } from './decoded.ts';

export function decodeAirAhead(text: string, { nowMs, retained }: Arrival): IssuedAirAhead | ReadingError {
  let payload: unknown;
  try {
    payload = JSON.parse(text);
  } catch {
    return new ReadingError('not-json', message('refusal.air-ahead-json'));
  }
  const read = newAirAheadSchema.safeParse(payload);
  if (!read.success) return refusal(problemOf(read.error.issues[0]));
  const { issuedAt, ...ahead } = read.data;
  // It lay at the broker for nobody knows how long.
  if (issuedAt === undefined && retained)
    return refusal({ reason: 'missing-field', pointer: '/issuedAt', said: message('field.air.retained') });
  const issuedMs = issuedAt ?? nowMs;
  const problem = airAheadProblem(ahead, issuedMs, nowMs);
  return problem ? refusal(problem) : { ...ahead, issuedMs };
}

function problemOf(issue: FieldIssue | undefined): AirAheadProblem {
  const found = issue ?? { code: '', path: [], message: 'Invalid' };
  const { code, path } = found;
  const isTime = path.at(-1) === 'at' || path.at(-1) === 'issuedAt';
  const tooFar = code === 'too_big' || code === 'too_small';
  const reason = isTime ? 'bad-time' : tooFar ? 'out-of-range' : 'wrong-type';
  return { reason, pointer: `/${path.map(String).join('/')}`, said: fieldFault(found) };
}

const refusal = ({ reason, pointer, said }: AirAheadProblem) =>
  new ReadingError(reason, message('refusal.air-ahead', { pointerText: pointer, detailPart: said }));
