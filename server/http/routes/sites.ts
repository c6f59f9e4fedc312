/** The places where piles lie. */
import { newSiteSchema, siteSchema, sitesAnswerSchema } from '../../../shared/contracts/sites.ts';
import type { Installation } from '../../app/installation.ts';
import type { Api } from '../api.ts';
import { idFromName } from './id-from-name.ts';

export function registerSites(api: Api, installation: Installation): void {
  api.get(
    '/api/sites',
    { config: { access: 'viewer' }, schema: { response: { 200: sitesAnswerSchema } } },
    async () => ({
      sites: await installation.journal.sites.list(),
    }),
  );

  api.post(
    '/api/sites',
    {
      config: { access: 'keeper', does: 'added a site' },
      schema: { body: newSiteSchema, response: { 201: siteSchema } },
    },
    async (request, reply) => {
      const { id, name, timeZone, latitude, longitude } = request.body;
      const site = {
        id: id ?? idFromName(name),
        name,
        timeZone: timeZone ?? null,
        latitude: latitude ?? null,
        longitude: longitude ?? null,
      };
      await installation.journal.sites.add(site);
      return reply.code(201).send(site);
    },
  );
}
