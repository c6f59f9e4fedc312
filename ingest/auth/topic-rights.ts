/**
 * Which topics a key may publish on and which it may hear. It never lets a filter through of which a part lies outside.
 */
import type { KeyReach } from '../../shared/probe-key.ts';
import { isCommandTopic, isNoProbesTopic, siteStateFilters, warningFilters } from '../../shared/published-topics.ts';
import { isDeviceTopic } from '../devices/device-topic.ts';
import { matchFilter } from '../mapping/topic-filter.ts';

export interface TopicRights {
  mayPublish(topic: string): boolean;
  mayHear(filter: string): boolean;
  /** What it says there is heard by us alone, and counts for its own site: a device that nobody knows speaks so. */
  mayBeHeard(topic: string): boolean;
}

export function topicRights(reach: KeyReach, root: string): TopicRights {
  const own = ownPrefix(reach, root);
  // What a device says counts for the site of its key alone, whatever the topic; one with the key of a single probe
  // speaks as we do, for it is that probe.
  const speaksForDevices = reach.site !== null && reach.probe === null;
  const hearable = hearableFilters(reach, root, own);
  return {
    mayPublish: (topic) =>
      (own !== undefined && topic.startsWith(own) && topic.length > own.length) ||
      (speaksForDevices && !topic.startsWith(`${root}/`) && isDeviceTopic(topic)) ||
      reach.foreign.some((filter) => mayCover(filter, topic, root) && matchFilter(filter, topic) !== undefined),
    mayHear: (filter) => hearable.some((allowed) => covers(allowed, filter)),
    mayBeHeard: (topic) => speaksForDevices && !isNoProbesTopic(topic, root) && !topic.startsWith('$'),
  };
}

/** A filter for topics of others is none for ours; commands about piles are for keys that name them. */
function mayCover(filter: string, topic: string, root: string): boolean {
  if (topic.startsWith(`${root}/`)) return false;
  return !isCommandTopic(topic, root) || isCommandTopic(filter, root);
}

/** Everything of this probe, its status and so its will included; or of every probe of the site. */
function ownPrefix({ site, probe }: KeyReach, root: string): string | undefined {
  if (site === null) return undefined;
  return probe === null ? `${root}/${site}/` : `${root}/${site}/${probe}/`;
}

/** What is said of a site's piles is for those who speak for the whole of it. */
function hearableFilters({ site, probe, hears }: KeyReach, root: string, own: string | undefined): string[] {
  const states = site === null || probe !== null ? [] : siteStateFilters(root, site);
  const ownFilters = own === undefined ? [] : [`${own}#`, ...states];
  if (hears === 'everything') return ['#'];
  return hears === 'warnings' ? [...ownFilters, ...warningFilters(root)] : ownFilters;
}

/**
 * Whether every topic that `asked` matches is matched by `allowed` too (MQTT 3.1.1 section 4.7).
 * @example covers('a/+/#', 'a/b/c') // => true
 * @example covers('a/+', 'a/#') // => false
 */
export function covers(allowed: string, asked: string): boolean {
  // Wildcards do not reach topics that begin with $ [MQTT-4.7.2-1], so neither does a right given by one.
  if (asked.startsWith('$') && /^[+#]/.test(allowed)) return false;
  const wide = allowed.split('/');
  const narrow = asked.split('/');
  for (const [index, level] of wide.entries()) {
    if (level === '#') return true;
    const other = narrow[index];
    if (other === undefined || other === '#') return false;
    if (level !== '+' && level !== other) return false;
  }
  return narrow.length === wide.length;
}
