/** What a topic says about the message on it. It never lets a name through that `nameSchema` would refuse. */

import { ReadingError } from '../../shared/errors.ts';
import { type Message, message } from '../../shared/messages/message.ts';
import { namePattern } from '../../shared/names.ts';
import { acknowledgeTopic, hubStatusTopic, isCommandTopic, isServersTopic } from '../../shared/published-topics.ts';
import { type Quantity, quantities } from '../../shared/quantity.ts';
import type { ProbeRef } from './decoded.ts';
import { foundSaid } from './decoded.ts';

export type Route =
  | { readonly kind: 'reading'; readonly probe: ProbeRef }
  | { readonly kind: 'status'; readonly probe: ProbeRef }
  | { readonly kind: 'value'; readonly probe: ProbeRef; readonly quantity: Quantity }
  | { readonly kind: 'air-ahead'; readonly site: string }
  /** A hub asks for the warnings of a pile to be acknowledged. */
  | { readonly kind: 'acknowledge'; readonly site: string; readonly pile: string }
  /** A hub says whether it is up. */
  | { readonly kind: 'hub-status' }
  /** What the server said itself, as a broker of somebody else brings it back. */
  | { readonly kind: 'own' }
  | { readonly kind: 'misshapen'; readonly error: ReadingError }
  | { readonly kind: 'foreign' };

/** What is foretold of a whole site has no probe. */
const airAheadLeaf = 'air-ahead';

/** Every site's, for a broker. */
export const airAheadFilter = (root: string): string => `${root}/+/${airAheadLeaf}`;

/** Every pile's, for a broker. */
export const acknowledgeFilter = (root: string): string => acknowledgeTopic(root, '+', '+');

const foreign: Route = { kind: 'foreign' };
const quantityNames: ReadonlySet<string> = new Set(quantities);

export function readTopic(root: string, topic: string): Route {
  if (!topic.startsWith(`${root}/`)) return besideOurs(root, topic);
  const levels = topic.slice(root.length + 1).split('/');
  const [site = '', probe = '', leaf = ''] = levels;
  if (levels.length === 2 && probe === airAheadLeaf && namePattern.test(site)) return { kind: 'air-ahead', site };
  if (levels.length !== 3) return misshapen(message('refusal.topic.levels', shapeOf(topic, root)));
  if (!namePattern.test(site)) return misshapen(message('refusal.topic.site', shapeOf(topic, root)));
  if (!namePattern.test(probe)) return misshapen(message('refusal.topic.probe', shapeOf(topic, root)));
  const ref = { site, probe };
  if (leaf === 'reading' || leaf === 'status') return { kind: leaf, probe: ref };
  if (quantityNames.has(leaf)) return { kind: 'value', probe: ref, quantity: leaf as Quantity };
  return misshapen(message('refusal.topic.leaf', { ...shapeOf(topic, root), namesText: quantities.join(', ') }));
}

function besideOurs(root: string, topic: string): Route {
  if (topic === hubStatusTopic) return { kind: 'hub-status' };
  if (isServersTopic(topic, root)) return { kind: 'own' };
  if (!isCommandTopic(topic, root)) return foreign;
  const [, site = '', pile = ''] = topic.split('/');
  return namePattern.test(site) && namePattern.test(pile) && topic === acknowledgeTopic(root, site, pile)
    ? { kind: 'acknowledge', site, pile }
    : misshapen(
        message('refusal.topic.command', {
          patternText: acknowledgeTopic(root, '<site>', '<pile>'),
          foundPart: foundSaid(topic),
        }),
      );
}

/** A topic as it must be, and as it is. */
const shapeOf = (topic: string, root: string) => ({
  patternText: readingTopicPattern(root),
  foundPart: foundSaid(topic),
});

export const readingTopicPattern = (root: string) => `${root}/<site>/<probe>/reading`;

const misshapen = (said: Message): Route => ({ kind: 'misshapen', error: new ReadingError('topic-shape', said) });

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
