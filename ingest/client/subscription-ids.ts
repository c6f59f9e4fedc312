/**
 * Which copy of a message is for whom.
 *
 * A broker may send one copy of a message per matching subscription (MQTT 5 section 3.3.4). Without a time of its own
 * each copy would be another reading, so every copy is handled only for the subscription it came by.
 */
import { matchFilter } from '../mapping/topic-filter.ts';

/** The same filter has the same identifier in every run, so what an old session still sends is kept apart. */
export function subscriptionId(filter: string): number {
  let hash = 0x811c9dc5; // FNV-1a
  for (const byte of Buffer.from(filter)) hash = Math.imul(hash ^ byte, 0x01000193);
  return 1 + ((hash >>> 0) % 268_435_455); // 1..268,435,455 (section 3.8.2.1.2)
}

/** For whom this copy is: everybody, nobody, or whoever asked for one of the filters it came by. */
export type Audience = 'everybody' | 'nobody' | ((filter: string) => boolean);

export function audienceOf(rootFilter: string, topic: string, ids: number | number[] | undefined): Audience {
  if (ids === undefined) return 'everybody'; // no foreign filters, or a broker that offers no identifiers
  const carried = typeof ids === 'number' ? [ids] : ids;
  if (carried.includes(subscriptionId(rootFilter))) return 'everybody';
  if (matchFilter(rootFilter, topic) !== undefined) return 'nobody'; // the root's own copy comes too
  return (filter) => carried.includes(subscriptionId(filter));
}
