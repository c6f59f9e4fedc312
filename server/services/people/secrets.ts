/**
 * Random secrets, and how they are kept and compared.
 *
 * A secret of 256 random bits cannot be guessed from its digest, so a plain SHA-256 is enough to keep it by; passwords
 * are another matter (passwords.ts).
 */
import { createHash, createHmac, randomBytes, timingSafeEqual } from 'node:crypto';

/** 256 random bits, 43 letters for addresses, cookies and headers. */
export const newSecret = (): string => randomBytes(32).toString('base64url');

/** Id of something in lists; no secret. */
export const newId = (): string => randomBytes(12).toString('base64url').replace(/[-_]/g, 'x').toLowerCase();

export const digestOf = (secret: string): string => createHash('sha256').update(secret).digest('hex');

export const sealOf = (key: string, text: string): string => createHmac('sha256', key).update(text).digest('base64url');

/** Takes as long however much of it is right. */
export function isSame(one: string, other: string): boolean {
  const digest = (text: string) => createHash('sha256').update(text).digest();
  return timingSafeEqual(digest(one), digest(other));
}
