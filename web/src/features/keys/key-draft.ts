/** A key as it is being filled in, and what would be made of it. */
import type { NewKey } from '../../../../shared/contracts/keys.ts';

export type KeyUse = 'probe' | 'site' | 'warnings' | 'everything';

export interface KeyDraft {
  readonly use: KeyUse;
  readonly name: string;
  readonly site: string;
  readonly probe: string;
  /** Filters, one a line. */
  readonly foreign: string;
}

export const keyUses: readonly (readonly [use: KeyUse, words: string])[] = [
  ['probe', 'One probe'],
  ['site', 'A whole site'],
  ['warnings', 'A siren or lamp'],
  ['everything', 'A listener'],
];

export const useHints: Record<KeyUse, string> = {
  probe: 'Speaks for this probe and nothing else.',
  site: 'Speaks for every probe of one site: for a gateway that passes on what its probes measure.',
  warnings: 'Says nothing. Hears what warns, so that a siren can sound and a lamp can light.',
  everything: 'Says nothing. Hears whatever comes in, for a program of your own that reads along.',
};

export function newKeyOf({ use, name, site, probe, foreign }: KeyDraft): NewKey {
  const speaks = use === 'probe' || use === 'site';
  const lines = foreign.split('\n').map((line) => line.trim());
  return {
    name: name.trim() || nameFor(use, site, probe),
    site: speaks ? site.trim() : null,
    probe: use === 'probe' ? probe.trim() : null,
    foreign: speaks ? lines.filter((line) => line !== '') : [],
    hears: speaks ? 'own' : use,
  };
}

/** What it is called where the person leaves that open. */
export function nameFor(use: KeyUse, site: string, probe: string): string {
  if (use === 'probe') return `${probe.trim()} at ${site.trim()}`;
  if (use === 'site') return `All of ${site.trim()}`;
  return use === 'warnings' ? 'Siren or lamp' : 'Listener';
}
