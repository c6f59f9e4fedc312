/**
 * Caches as JSON under a seal: what was changed or cut off since it was written is known by what we wrote, whatever it
 * is, so that its shape need not be described here. CRC-32 finds damage; it keeps nobody out.
 */
import { crc32 } from 'node:zlib';

export function sealed(value: unknown): string {
  const text = JSON.stringify(value);
  return `${sealOf(text)} ${text}`;
}

/** @returns undefined when it is not as it was written. */
export function unsealed(kept: string): { readonly value: unknown } | undefined {
  const text = kept.slice(sealLength + 1);
  if (kept.slice(0, sealLength) !== sealOf(text)) return undefined;
  try {
    return { value: JSON.parse(text) };
  } catch {
    return undefined;
  }
}

const sealLength = 8;
const sealOf = (text: string) => crc32(text).toString(16).padStart(sealLength, '0');
