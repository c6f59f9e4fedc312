/** The places where piles lie. */
import { newSiteSchema, siteSchema, sitesAnswerSchema } from '../../../shared/contracts/sites.ts';
import type { Journal } from '../../../shared/store/journal.ts';
import { freeSiteId } from '../../services/free-site-id.ts';
import type { Api } from '../api.ts';

interface SitesParts {
  readonly journal: Journal;
}

export function registerSites(api: Api, parts: SitesParts): void {
  api.get(
    '/api/sites',
    { config: { access: 'viewer' }, schema: { response: { 200: sitesAnswerSchema } } },
    async () => ({
      sites: await parts.journal.sites.list(),
    }),
  );

  api.post(
    '/api/sites',
    {
      config: { access: 'keeper', does: 'audit.did.added-site' },
      schema: { body: newSiteSchema, response: { 201: siteSchema } },
    },
    async (request, reply) => {
      const { id, name, timeZone, latitude, longitude } = request.body;
      const site = {
        id: id ?? freeSiteId(await parts.journal.sites.list(), name),
        name,
        timeZone: timeZone ?? null,
        latitude: latitude ?? null,
        longitude: longitude ?? null,
      };
      await parts.journal.sites.add(site);
      return reply.code(201).send(site);
    },
  );
}
