/** MQTT topic filters (MQTT 5 section 4.7). */
import { type Message, message } from '../../shared/messages/message.ts';

/** Why this is no filter, or undefined when it is one. Shared subscriptions are not for mappings. */
export function filterProblem(filter: string): Message | undefined {
  if (filter.length === 0) return message('field.filter.empty'); // [MQTT-4.7.3-1]
  if (filter.includes('\0')) return message('field.filter.nul'); // [MQTT-4.7.3-2]
  if (Buffer.byteLength(filter) > 65_535) return message('field.filter.too-long'); // [MQTT-4.7.3-3]
  if (filter.startsWith('$share/')) return message('field.filter.shared');
  const levels = filter.split('/');
  for (const [index, level] of levels.entries()) {
    // [MQTT-4.7.1-1]: # stands alone, and last.
    if (level.includes('#') && (level !== '#' || index !== levels.length - 1)) return message('field.filter.hash');
    // [MQTT-4.7.1-2]: + fills a level.
    if (level.includes('+') && level !== '+') return message('field.filter.plus');
  }
  return undefined;
}

/** The same for a filter of a mapping, in which + may stand for a part of a level: once in each. */
export function mappingFilterProblem(filter: string): Message | undefined {
  if (filter.split('/').some((level) => level.split('+').length > 2)) return message('field.filter.plus-twice');
  return filterProblem(brokerFilter(filter));
}

/** What to ask a broker for, which knows no wildcard within a level. @example brokerFilter('shed-+/t') // => "+/t" */
export function brokerFilter(filter: string): string {
  return filter
    .split('/')
    .map((level) => (level.includes('+') ? '+' : level))
    .join('/');
}

export function wildcardCount(filter: string): number {
  return filter.split('/').filter((level) => level.includes('+') || level === '#').length;
}

/** What the wildcards stood for, first to last (that of # with its slashes); undefined when the topic does not match. */
export function matchFilter(filter: string, topic: string): string[] | undefined {
  const captured: string[] = [];
  const wanted = filter.split('/');
  const levels = topic.split('/');
  // [MQTT-4.7.2-1]: a wildcard first does not match topics that begin with $.
  if (topic.startsWith('$') && (wanted[0]?.startsWith('+') || wanted[0] === '#')) return undefined;
  for (const [index, level] of wanted.entries()) {
    if (level === '#') {
      // Section 4.7.1.2: # also matches the level above it.
      captured.push(levels.slice(index).join('/'));
      return captured;
    }
    const actual = levels[index];
    if (actual === undefined) return undefined;
    if (level.includes('+')) {
      const part = partOf(level, actual);
      if (part === undefined) return undefined;
      captured.push(part);
    } else if (level !== actual) return undefined;
  }
  return levels.length === wanted.length ? captured : undefined;
}

/** What + stands for. @example partOf('shed-+', 'shed-7') // => "7" */
function partOf(level: string, actual: string): string | undefined {
  const [before = '', after = ''] = level.split('+');
  const isOf = actual.length >= before.length + after.length && actual.startsWith(before) && actual.endsWith(after);
  return isOf ? actual.slice(before.length, actual.length - after.length) : undefined;
}

/** Whether some topic matches both. @example filtersOverlap('+/sensor/+/state', 'piles/+/+/+') // => true */
export function filtersOverlap(one: string, other: string): boolean {
  const left = one.split('/');
  const right = other.split('/');
  for (const [index, level] of left.entries()) {
    const opposite = right[index];
    if (level === '#' || opposite === '#') return true;
    // Section 4.7.1.2: # also matches the level above it.
    if (opposite === undefined) return left[index] === '#';
    if (level !== '+' && opposite !== '+' && level !== opposite) return false;
  }
  return right.length === left.length || (right.length === left.length + 1 && right.at(-1) === '#');
}
