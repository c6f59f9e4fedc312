/** Names of probes out of what devices call themselves. */
import { trimSign } from '../../shared/trim-sign.ts';

const longest = 64;

/**
 * The same text gives the same name in every run. What a name cannot hold becomes a hyphen; where that, or cutting it
 * short, could make two texts one name, a few digits of the text's hash tell them apart.
 * @example deviceName('Compost/Core', '') // => "compost-core"
 * @example deviceName('грядка', '') // => "device-f5e2a1c4" (digits of a hash)
 */
export function deviceName(device: string, part: string): string {
  const text = (part === '' ? device : `${device}-${part}`).toLowerCase();
  const plain = trimSign(text.replaceAll(/[ /.:]/g, '-'), '-');
  const name = trimSign(plain.replaceAll(/[^a-z0-9_-]+/g, '-'), '-');
  if (name === plain && name !== '' && name.length <= longest) return name;
  const readable = trimSign(name.replaceAll(/-+/g, '-').slice(0, longest - 9), '-');
  return `${readable === '' ? 'device' : readable}-${hashOf(text)}`;
}

/** FNV-1a. */
function hashOf(text: string): string {
  let hash = 0x811c9dc5;
  for (const byte of Buffer.from(text)) hash = Math.imul(hash ^ byte, 0x01000193);
  return (hash >>> 0).toString(16).padStart(8, '0');
}

/** A hardware address as it is written in names: its digits alone. @example macDigits('CB:B8:33:4C:88:4F') // => "cbb8334c884f" */
export const macDigits = (mac: string): string => mac.toLowerCase().replaceAll(/[:-]/g, '');
