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

/** Where home automation hubs say that they are up, and where they hear devices introduce themselves. */
export const hubStatusTopic = 'homeassistant/status';
const hubDevices = 'homeassistant/device/';
/** A pile as a device of a hub; of letters that its topic may hold. */
export const hubDeviceId = (root: string, pile: string) => `branhearth-${root}-${pile}`;
export const hubDeviceTopic = (root: string, pile: string) => `${hubDevices}${hubDeviceId(root, pile)}/config`;

/** On which a hub asks for something to be done about a pile. */
export const acknowledgeTopic = (root: string, site: string, pile: string) =>
  `${root}-command/${site}/${pile}/acknowledge`;
export const isCommandTopic = (topic: string, root: string) => topic.startsWith(`${root}-command/`);

/** What only the server says: of sites and piles, and how it introduces piles to hubs. */
export function isServersTopic(topic: string, root: string): boolean {
  return (
    isWarningTopic(topic, root) ||
    topic.startsWith(`${root}-state/`) ||
    topic.startsWith(`${root}-event/`) ||
    topic.startsWith(`${hubDevices}${hubDeviceId(root, '')}`)
  );
}

/** No probe speaks there, whoever says so. */
export const isNoProbesTopic = (topic: string, root: string) =>
  topic.startsWith(`${root}/`) || isServersTopic(topic, root) || isCommandTopic(topic, root);

function isWarningTopic(topic: string, root: string): boolean {
  const leafAt = topic.lastIndexOf('/') + 1;
  if (!warningLeaves.includes(topic.slice(leafAt)) || !topic.startsWith(`${root}/`)) return false;
  return !topic.slice(root.length + 1, leafAt - 1).includes('/'); // a probe's topics are a level deeper
}
