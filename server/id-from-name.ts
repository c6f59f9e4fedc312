/** A name for addresses and topics made from what a person wrote. */
import { randomBytes } from 'node:crypto';
import { trimSign, trimSignEnd } from '../shared/trim-sign.ts';

/** Short id that no name leads to, e.g. "x7f3k2". */
export function randomId(): string {
  return randomBytes(9)
    .toString('base64url')
    .toLowerCase()
    .replace(/[^a-z0-9]/g, 'x');
}

/**
 * @param name Any text. @returns 1-64 of a-z, 0-9 and hyphen; accents are dropped, and a name
 * with no Latin letter or digit at all gets a random id.
 * @example idFromName('Säge-Schuppen 2') // => 'sage-schuppen-2'
 */
export function idFromName(name: string): string {
  const id = name
    .normalize('NFKD')
    .replace(/[\u0300-\u036f]/g, '')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-');
  return trimSignEnd(trimSign(id, '-').slice(0, 64), '-') || randomId();
}
