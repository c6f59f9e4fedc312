/** A key as it is being filled in, and what would be made of it. */
import type { NewKey } from '../../../../shared/contracts/keys.ts';
import type { KeyWords } from './use-key-words.ts';

export type KeyUse = 'probe' | 'site' | 'warnings' | 'everything';

export interface KeyDraft {
  readonly use: KeyUse;
  readonly name: string;
  readonly site: string;
  readonly probe: string;
  /** Filters, one a line. */
  readonly foreign: string;
}

export const keyUses: readonly KeyUse[] = ['probe', 'site', 'warnings', 'everything'];

/** @param words For what it is called where the person leaves that open. */
export function newKeyOf({ use, name, site, probe, foreign }: KeyDraft, words: Pick<KeyWords, 'text'>): NewKey {
  const speaks = use === 'probe' || use === 'site';
  const lines = foreign.split('\n').map((line) => line.trim());
  return {
    name: name.trim() || nameFor(use, site, probe, words),
    site: speaks ? site.trim() : null,
    probe: use === 'probe' ? probe.trim() : null,
    foreign: speaks ? lines.filter((line) => line !== '') : [],
    hears: speaks ? 'own' : use,
  };
}

/** What it is called where the person leaves that open. */
export function nameFor(use: KeyUse, site: string, probe: string, { text }: Pick<KeyWords, 'text'>): string {
  if (use === 'probe') return text('page-keys.name.probe', { probeName: probe.trim(), siteName: site.trim() });
  return use === 'site' ? text('page-keys.name.site', { siteName: site.trim() }) : text(`page-keys.name.${use}`);
}
