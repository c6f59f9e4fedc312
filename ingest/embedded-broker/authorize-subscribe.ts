/** What a client of the embedded broker may listen to. */

import type { Client } from 'aedes';
import { ReadingError } from '../../shared/errors.ts';
import { type Message, message } from '../../shared/messages/message.ts';
import type { Hook, HookParts } from './hook-parts.ts';
import { notItsTopic, whoIs } from './not-its-topic.ts';

const longestFilterBytes = 1024;
const mostFilterLevels = 32;
/** Of one connection; further filters are refused for the last reason, without being looked at. */
const mostReasons = 64;

export function authorizeSubscribeWith(parts: HookParts): Hook<'authorizeSubscribe'> {
  const refused = new WeakMap<Client, { count: number; last: ReadingError }>();
  return (client, subscription, done) => {
    const { topic: filter } = subscription;
    const before = refused.get(client);
    const isBeyond = before !== undefined && before.count >= mostReasons;
    const wrong = isBeyond ? before.last : unhearable(parts, client, filter);
    if (wrong === undefined) return done(null, subscription);
    refused.set(client, { count: (before?.count ?? 0) + 1, last: wrong });
    parts.sink.refuse(wrong, filter, '');
    done(null, null); // SUBACK 0x80 (MQTT 3.1.1 section 3.9.3)
  };
}

/** Why a filter may not be heard; when it may, it is counted. */
function unhearable(
  { principals, filters }: Pick<HookParts, 'principals' | 'filters'>,
  client: Client,
  filter: string,
): ReadingError | undefined {
  const principal = principals.get(client);
  if (principal?.rights?.mayHear(filter) === false) return notItsTopic('refusal.listen', principal, filter);
  const wrong = filterProblem(filter);
  if (wrong !== undefined || filters.take({ client, principal }, filter)) return wrong;
  return tooManyFilters(message('refusal.filters', { ...whoIs(principal), filterText: filter }));
}

const tooManyFilters = (said: Message) => new ReadingError('too-many-filters', said);

/** Each level of a filter takes memory of its own, for as long as somebody listens. */
function filterProblem(filter: string): ReadingError | undefined {
  const bytes = Buffer.byteLength(filter);
  if (bytes > longestFilterBytes)
    return tooManyFilters(message('refusal.filter-long', { mostCount: longestFilterBytes, foundCount: bytes }));
  const levels = filter.split('/').length;
  if (levels > mostFilterLevels)
    return tooManyFilters(message('refusal.filter-deep', { mostCount: mostFilterLevels, foundCount: levels }));
  return undefined;
}
