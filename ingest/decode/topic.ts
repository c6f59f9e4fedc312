/** What a topic says about the message on it. It never lets a name through that `nameSchema` would refuse. */
import { ReadingError } from '../../shared/errors.ts';
import { namePattern } from '../../shared/names.ts';
import { type Quantity, quantities } from '../../shared/quantity.ts';
import type { ProbeRef } from './decoded.ts';
import { shown } from './decoded.ts';

export type Route =
  | { readonly kind: 'reading'; readonly probe: ProbeRef }
  | { readonly kind: 'status'; readonly probe: ProbeRef }
  | { readonly kind: 'value'; readonly probe: ProbeRef; readonly quantity: Quantity }
  | { readonly kind: 'air-ahead'; readonly site: string }
  | { readonly kind: 'misshapen'; readonly error: ReadingError }
  | { readonly kind: 'foreign' };

/** What is foretold of a whole site has no probe. */
const airAheadLeaf = 'air-ahead';

/** Every site's, for a broker. */
export const airAheadFilter = (root: string): string => `${root}/+/${airAheadLeaf}`;

const foreign: Route = { kind: 'foreign' };
const quantityNames: ReadonlySet<string> = new Set(quantities);

export function readTopic(root: string, topic: string): Route {
  if (!topic.startsWith(`${root}/`)) return foreign;
  const levels = topic.slice(root.length + 1).split('/');
  const [site = '', probe = '', leaf = ''] = levels;
  if (levels.length === 2 && probe === airAheadLeaf && namePattern.test(site)) return { kind: 'air-ahead', site };
  if (levels.length !== 3) return misshapen(topic, root, 'must have three levels below the root');
  if (!namePattern.test(site)) return misshapen(topic, root, 'must name a site by 1-64 of a-z 0-9 - _');
  if (!namePattern.test(probe)) return misshapen(topic, root, 'must name a probe by 1-64 of a-z 0-9 - _');
  const ref = { site, probe };
  if (leaf === 'reading' || leaf === 'status') return { kind: leaf, probe: ref };
  if (quantityNames.has(leaf)) return { kind: 'value', probe: ref, quantity: leaf as Quantity };
  return misshapen(topic, root, `must end in reading, status or one of ${quantities.join(', ')}`);
}

function misshapen(topic: string, root: string, must: string): Route {
  return {
    kind: 'misshapen',
    error: new ReadingError(
      'topic-shape',
      `Cannot read the topic as it ${must}, like ${root}/<site>/<probe>/reading: found ${shown(topic)}`,
    ),
  };
}

/** A server hears few topics again and again; a flood of invented ones empties the memory instead of filling it. */
const rememberedTopics = 20_000;

export function createTopicReader(root: string): (topic: string) => Route {
  const remembered = new Map<string, Route>();
  return (topic) => {
    const known = remembered.get(topic);
    if (known !== undefined) return known;
    const route = readTopic(root, topic);
    if (route.kind !== 'misshapen' && topic.length <= 256) {
      if (remembered.size >= rememberedTopics) remembered.clear();
      remembered.set(topic, route);
    }
    return route;
  };
}
