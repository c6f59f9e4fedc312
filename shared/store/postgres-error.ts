/** What PostgreSQL, or the way to it, reports, as a sentence a person can act on. */
import type { DatabaseError } from 'pg';
import { ConflictError } from '../errors.ts';
import { type Message, message } from '../messages/message.ts';

/** SQLSTATE (PostgreSQL 15 documentation, appendix A), or its class of two characters. */
const reasons: Readonly<Record<string, string>> = {
  '53100': 'the disk of the database is full',
  '53300': 'the database has no connection left: raise its max_connections or run fewer processes',
  '57P01': 'the database is being stopped',
  '57P02': 'the database has crashed and starts again',
  '57P03': 'the database is starting',
  '57014': 'the database took too long',
  '55P03': 'another program holds what is needed for too long',
  '25006': 'the database may only be read',
  '28P01': 'the user name or the password is wrong',
  '28000': 'this user may not come in from here, or only under TLS (sslmode in the address)',
  '3D000': 'there is no database of that name',
  '42501': 'this user may not do that there',
  '22021': 'the database keeps no text with such a character in it',
  '08': 'the connection to the database was lost',
  '53': 'the database is short of something',
  XX: 'the database reports damage',
};

/** Of the way there; what `pg` says of its own accord has no code. */
const ways: readonly [RegExp, string][] = [
  [/ECONNREFUSED/, 'nothing answers there'],
  [/ENOTFOUND|EAI_AGAIN/, 'there is no machine of that name'],
  [/EHOSTUNREACH|ENETUNREACH/, 'there is no way to that machine'],
  [/ENOENT/, 'there is no such socket'],
  [/ETIMEDOUT|timeout expired|timeout exceeded|Query read timeout/i, 'the database does not answer in time'],
  [/ECONNRESET|EPIPE|Connection terminated|not queryable/, 'the connection to the database was lost'],
  [/does not support SSL/, 'it speaks no TLS: take sslmode out of the address or switch TLS on there'],
  [/self.signed|unable to (get|verify)|certificate|altnames/i, 'its certificate cannot be trusted'],
];

/** By what every refusal of the server has (its message fields S and C): its class would load the driver for installations without. */
function isRefusal(cause: unknown): cause is DatabaseError {
  return cause instanceof Error && cause.name === 'error' && 'severity' in cause && 'code' in cause;
}

/** undefined when it is not PostgreSQL's. */
export function postgresReason(cause: unknown): string | undefined {
  if (isRefusal(cause)) {
    const code = cause.code ?? '';
    const known = reasons[code] ?? reasons[code.slice(0, 2)];
    return known ? `${known}: ${code}` : `the database refused: ${code} ${cause.message}`;
  }
  if (!(cause instanceof Error)) return undefined;
  const said = `${(cause as NodeJS.ErrnoException).code ?? ''} ${cause.message}`;
  const way = ways.find(([pattern]) => pattern.test(said));
  return way && `${way[1]}: ${(cause as NodeJS.ErrnoException).code ?? cause.message}`;
}

/** Rules that stand as unique indexes too; a writer that checks them first meets the index only in a race. */
const conflicts: Readonly<Record<string, readonly [pointer: string, said: Message]>> = {
  one_batch_at_a_time: ['/pileId', message('problem.pile-not-free-now')],
  one_claim_per_probe: ['/probe', message('problem.probe-claimed-now')],
  one_probe_per_position: ['/position', message('problem.position-taken-now')],
  newest_version: ['/replaces', message('problem.entry-changed-now')],
  entry_version: ['/replaces', message('problem.entry-changed-now')],
};

/** undefined unless it is a unique index (SQLSTATE 23505) of ours. */
export function postgresConflict(cause: unknown): ConflictError | undefined {
  if (!isRefusal(cause) || cause.code !== '23505') return undefined;
  const known = conflicts[cause.constraint ?? ''];
  return known && new ConflictError(known[1], known[0]);
}
