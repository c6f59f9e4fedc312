/** Names of sites and probes out of topics and messages. */
import { trimSign } from '../../shared/trim-sign.ts';
import { pointerProblem } from './json-pointer.ts';

const longest = 64;
const placeholder = /\{(\d{1,3}|\/[^{}]{0,120})\}/g;

/** What stands at a place of the message, as text; '' where nothing does. */
export type TextAt = (pointer: string) => string;

/**
 * Fills {1}, {2} ... and {/place} and makes the result fit the rule for names: small letters, anything else becomes a
 * hyphen.
 */
export function filledName(template: string, captured: readonly string[], textAt: TextAt): string {
  const filled = template
    .replaceAll(placeholder, (_, of: string) => (of.startsWith('/') ? textAt(of) : (captured[Number(of) - 1] ?? '')))
    .slice(0, 4 * longest)
    .toLowerCase()
    .replaceAll(/[^a-z0-9_-]+/g, '-');
  return trimSign(filled.slice(0, longest), '-');
}

export interface Placeholders {
  readonly wildcards: readonly number[];
  readonly pointers: readonly string[];
}

export function placeholdersOf(template: string): Placeholders {
  const found = [...template.matchAll(placeholder)].map(([, of = '']) => of);
  return {
    wildcards: found.filter((of) => !of.startsWith('/')).map(Number),
    pointers: found.filter((of) => of.startsWith('/') && pointerProblem(of) === undefined),
  };
}

export const isPlain = ({ wildcards, pointers }: Placeholders) => wildcards.length === 0 && pointers.length === 0;
