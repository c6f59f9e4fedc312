/** What a client of the embedded broker may listen to. */
import type { Client } from 'aedes';
import { ReadingError } from '../../shared/errors.ts';
import type { Hook, HookParts } from './hook-parts.ts';
import { notItsTopic, whoIs } from './not-its-topic.ts';

const longestFilterBytes = 1024;
const mostFilterLevels = 32;

export function authorizeSubscribeWith(parts: HookParts): Hook<'authorizeSubscribe'> {
  return (client, subscription, done) => {
    const { topic: filter } = subscription;
    const wrong = unhearable(parts, client, filter);
    if (wrong === undefined) return done(null, subscription);
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
  if (principal?.rights?.mayHear(filter) === false) return notItsTopic(principal, 'listen to', filter);
  const wrong = filterProblem(filter);
  if (wrong !== undefined || filters.take({ client, principal }, filter)) return wrong;
  return tooManyFilters(`${whoIs(principal)} hear more topic filters than it does already: found ${filter}`);
}

function tooManyFilters(what: string): ReadingError {
  return new ReadingError('too-many-filters', `Cannot let ${what}`);
}

/** Each level of a filter takes memory of its own, for as long as somebody listens. */
function filterProblem(filter: string): ReadingError | undefined {
  const bytes = Buffer.byteLength(filter);
  if (bytes > longestFilterBytes)
    return tooManyFilters(`a topic filter be longer than ${longestFilterBytes} bytes: found ${bytes}`);
  const levels = filter.split('/').length;
  if (levels > mostFilterLevels)
    return tooManyFilters(`a topic filter have more than ${mostFilterLevels} levels: found ${levels}`);
  return undefined;
}
