/** What a new site is called in topics, where its devices are set up by hand: so it can be read, and is nobody else's. */
import type { Site } from '../../shared/contracts/sites.ts';
import { ConflictError } from '../../shared/errors.ts';
import { message } from '../../shared/messages/message.ts';
import { idFromName } from '../id-from-name.ts';

/** @throws {ConflictError} when a site is called so already: nobody could tell the two apart. */
export function freeSiteId(sites: readonly Site[], name: string): string {
  if (sites.some((site) => site.name === name)) {
    throw new ConflictError(message('problem.site-name-taken', { nameText: name }), '/name');
  }
  const id = idFromName(name);
  const taken = new Set(sites.map((site) => site.id));
  if (!taken.has(id)) return id;
  let number = 2;
  while (taken.has(`${id.slice(0, 60)}-${number}`)) number += 1;
  return `${id.slice(0, 60)}-${number}`;
}
