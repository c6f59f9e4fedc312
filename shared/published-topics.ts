/** Topics on which the server speaks and nobody else: its word on piles must be its own. */

const warningLeaves = ['alarm', 'siren', 'lamp'];

/** What the server says of a site, for sirens and lamps. */
export const warningFilters = (root: string): string[] => warningLeaves.map((leaf) => `${root}/+/${leaf}`);

export const stateTopic = (root: string, site: string, pile: string) => `${root}-state/${site}/${pile}`;
export const eventTopic = (root: string, site: string, pile: string) => `${root}-event/${site}/${pile}`;

/** What is said of the piles of one site. */
export const siteStateFilters = (root: string, site: string): string[] => [
  stateTopic(root, site, '#'),
  eventTopic(root, site, '#'),
];

export function isServersTopic(topic: string, root: string): boolean {
  return isWarningTopic(topic, root) || topic.startsWith(`${root}-state/`) || topic.startsWith(`${root}-event/`);
}

function isWarningTopic(topic: string, root: string): boolean {
  const leafAt = topic.lastIndexOf('/') + 1;
  if (!warningLeaves.includes(topic.slice(leafAt)) || !topic.startsWith(`${root}/`)) return false;
  return !topic.slice(root.length + 1, leafAt - 1).includes('/'); // a probe's topics are a level deeper
}
