/** Who sits before this page, and what they may do. */
import { z } from 'zod';
import type { SessionAnswer } from '../../../shared/contracts/people.ts';
import { isAllowed, type Person, type Role } from '../../../shared/person.ts';
import { forget, recall, remember } from './remembered.ts';
import { createStore, useStore } from './store.ts';

/** Null until asked for the first time. */
export const me = createStore<SessionAnswer | null>(null);

/** Whoever writes on this device. */
const writerSchema = z.object({ id: z.string(), name: z.string() });
export type Writer = z.infer<typeof writerSchema>;

const writerKey = 'branhearth.person';
me.follow(() => {
  const person = me.get()?.person;
  // Where nothing may be kept, a page opened out of reach does not know who writes.
  if (person) remember(writerKey, JSON.stringify({ id: person.id, name: person.name }));
  else forget(writerKey);
});

/** Who sits here; on a page that was opened out of reach, who sat here last. */
export function whoWrites(): Writer | null {
  const known = me.get();
  if (known !== null) return known.person && { id: known.person.id, name: known.person.name };
  try {
    return writerSchema.parse(JSON.parse(recall(writerKey) ?? ''));
  } catch {
    return null;
  }
}

export function useMe(): Person | null {
  return useStore(me, (known) => known?.person ?? null);
}

/** While it is not known who sits here, everything is offered: a page kept for out of reach stays of use. */
export function useMay(role: Role): boolean {
  return useStore(me, (known) => known === null || known.person === null || isAllowed(known.person.role, role));
}
