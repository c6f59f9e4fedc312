/** Roles, scopes and browsers in words. */
import type { Role, Scope } from '../../../../shared/person.ts';

export const roleNames: Record<Role, string> = { owner: 'Owner', keeper: 'Keeper', viewer: 'Viewer' };

export const roleSays: Record<Role, string> = {
  owner: 'may do everything: people, keys, who is notified of what, and all that a keeper may',
  keeper: 'writes the journal, acknowledges warnings, lays piles, looks after batches and probes',
  viewer: 'sees everything and changes nothing',
};

/** With its article. */
export const aRole: Record<Role, string> = { owner: 'an owner', keeper: 'a keeper', viewer: 'a viewer' };
export const ARole: Record<Role, string> = { owner: 'An owner', keeper: 'A keeper', viewer: 'A viewer' };

export const roleChoices = [
  ['keeper', 'Keeper'],
  ['viewer', 'Viewer'],
  ['owner', 'Owner'],
] as const;

export const scopeNames: Record<Scope, string> = {
  read: 'reads',
  keep: 'reads and writes as a keeper',
  own: 'may do all that an owner may',
};

/** Enough to know one's own devices again; what a browser says of itself is no proof. */
export function deviceWords(agent: string): string {
  const browser = /Firefox|Edg|OPR|Chrome|Safari/.exec(agent)?.[0];
  const names: Record<string, string> = { Edg: 'Edge', OPR: 'Opera' };
  const system = /Android|iPhone|iPad|Windows|Mac OS X|Linux/.exec(agent)?.[0]?.replace('Mac OS X', 'Mac');
  if (!browser && !system) return agent.trim() === '' ? 'A browser that says nothing of itself' : agent.slice(0, 60);
  return [browser ? (names[browser] ?? browser) : 'A browser', system && `on ${system}`].filter(Boolean).join(' ');
}
