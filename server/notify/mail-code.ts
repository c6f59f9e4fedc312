/**
 * The code that is mailed to an address to learn whose it is. It is worked out anew from the journal's own secret each time,
 * so that no message and no row holds one.
 */
import { createHmac, randomBytes } from 'node:crypto';
import type { Journal } from '../../shared/store/journal.ts';

const keySetting = 'mail-code-key';
export const codeLastsMs = 24 * 3_600_000;
/** Of a hundred million codes; then a new one must be asked for. */
export const mostCodeTries = 5;

export interface CodeFor {
  readonly personId: string;
  readonly address: string;
  /** When it was asked for, by the machine's clock: another time is another code. */
  readonly askedAtMs: number;
}

/** @returns Eight digits. */
export async function mailCode(
  settings: Pick<Journal['settings'], 'get' | 'set'>,
  { personId, address, askedAtMs }: CodeFor,
): Promise<string> {
  const digest = createHmac('sha256', await keyOf(settings))
    .update(JSON.stringify([personId, address.toLowerCase(), askedAtMs]))
    .digest();
  return String(digest.readUIntBE(0, 6) % 100_000_000).padStart(8, '0');
}

async function keyOf(settings: Pick<Journal['settings'], 'get' | 'set'>): Promise<string> {
  const known = await settings.get(keySetting);
  if (known !== undefined) return known;
  await settings.set(keySetting, randomBytes(32).toString('base64url'));
  // Another process may have set one at the same moment: the last one set is everybody's.
  return (await settings.get(keySetting)) ?? '';
}
