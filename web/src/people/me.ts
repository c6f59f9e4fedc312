/**
 * web/people/me.ts: who sits before this page, and what they may do.
 *
 * Takes:  GET /api/session, asked by the live connection before anything else.
 * Gives:  `useMay('keeper')`: whether a control is worth offering. The house decides again, whatever the page shows.
 */
import type { SessionAnswer } from '../../../shared/api/people.ts';
import { isAllowed, type Person, type Role } from '../../../shared/person.ts';
import { createStore, useStore } from '../store.ts';

/** Null until asked for the first time. */
export const me = createStore<SessionAnswer | null>(null);

export function useMe(): Person | null {
  return useStore(me, (known) => known?.person ?? null);
}

/** While it is not known who sits here, everything is offered: a page kept for out of reach stays of use. */
export function useMay(role: Role): boolean {
  return useStore(me, (known) => known === null || known.person === null || isAllowed(known.person.role, role));
}

/** The name beside what is written here: of whoever is signed in, else as chosen in the settings. */
export function signedName(chosen: string): string {
  const person = me.get()?.person;
  return person?.via === 'session' ? person.name : chosen;
}
