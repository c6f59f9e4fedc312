/** A browser and its system: enough to know one's own devices again; what a browser says of itself is no proof. */
import type { PeopleWords } from './use-people-words.ts';

export function deviceWords(agent: string, { text }: Pick<PeopleWords, 'text'>): string {
  const browser = /Firefox|Edg|OPR|Chrome|Safari/.exec(agent)?.[0];
  const names: Record<string, string> = { Edg: 'Edge', OPR: 'Opera' };
  const systemName = /Android|iPhone|iPad|Windows|Mac OS X|Linux/.exec(agent)?.[0]?.replace('Mac OS X', 'Mac');
  if (!browser && !systemName) return agent.trim() === '' ? text('page-people.device.unknown') : agent.slice(0, 60);
  const browserName = browser ? (names[browser] ?? browser) : text('page-people.device.browser');
  return systemName ? text('page-people.device.on', { browserName, systemName }) : browserName;
}
