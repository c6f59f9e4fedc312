/**
 * ingest/broker/heard-filters.ts: which topic filters are heard at an outside broker, and which copy of a message is for whom.
 *
 * Takes:  the mappings in force, filters a person listens to for a while, the ids a message carries.
 * Gives:  the filters to subscribe to, each with a subscription identifier (MQTT 5 section 3.8.2.1.2).
 *
 * A broker may send one copy of a message per matching subscription (section 3.3.4). Without a time of its own
 * each copy would be another reading, so every copy is handled only for the subscription it came by.
 */
import type { MappingInput } from '../../shared/api/ingest.ts';
import { matchFilter } from '../foreign/topic-filter.ts';

/** The same filter has the same identifier in every run, so what an old session still sends is told apart. */
export function subscriptionId(filter: string): number {
  let hash = 0x811c9dc5; // FNV-1a
  for (const byte of Buffer.from(filter)) hash = Math.imul(hash ^ byte, 0x01000193);
  return 1 + ((hash >>> 0) % 268_435_455); // 1..268,435,455 as the specification allows
}

/** Who may look at this copy: our own topics, these mappings, or nobody. */
export type Audience = 'everybody' | 'nobody' | ((mapping: MappingInput) => boolean);

export function audienceOf(rootFilter: string, topic: string, ids: number | number[] | undefined): Audience {
  if (ids === undefined) return 'everybody'; // the broker offers no identifiers
  const carried = typeof ids === 'number' ? [ids] : ids;
  if (carried.includes(subscriptionId(rootFilter))) return 'everybody';
  if (matchFilter(rootFilter, topic) !== undefined) return 'nobody'; // the root's own copy comes too
  return (mapping) => carried.includes(subscriptionId(mapping.filter));
}

export interface HeardFilters {
  setMappings(mappings: readonly MappingInput[]): void;
  listen(filter: string, untilMs: number): void;
  /** Everything foreign that should be heard now, listened ones without end of time left out. */
  wanted(nowMs: number): Set<string>;
  /** When the next filter is no longer listened to; undefined when none is. */
  nextEndMs(): number | undefined;
}

export function createHeardFilters(rootFilter: string): HeardFilters {
  let mapped: string[] = [];
  const listened = new Map<string, number>();
  return {
    setMappings(mappings) {
      mapped = mappings.map(({ filter }) => filter);
    },
    listen(filter, untilMs) {
      listened.set(filter, Math.max(untilMs, listened.get(filter) ?? 0));
    },
    wanted(nowMs) {
      for (const [filter, untilMs] of listened) if (untilMs <= nowMs) listened.delete(filter);
      const wanted = new Set([...mapped, ...listened.keys()]);
      wanted.delete(rootFilter);
      return wanted;
    },
    nextEndMs: () => (listened.size === 0 ? undefined : Math.min(...listened.values())),
  };
}
