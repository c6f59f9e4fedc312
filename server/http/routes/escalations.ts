/** Whom a site notifies, and in which order. */
import { z } from 'zod';
import { escalationAnswerSchema, escalationSchema, recipientsSchema } from '../../../shared/contracts/notifications.ts';
import type { Journal } from '../../../shared/store/journal.ts';
import type { Delivery } from '../../notify/delivery.ts';
import type { Api } from '../api.ts';
import { notFound } from '../problem.ts';

const siteParams = z.object({ site: z.string().min(1).max(64) });
const viewer = { access: 'viewer' as const };

interface EscalationsParts {
  readonly delivery: Delivery;
  readonly journal: Journal;
}

export function registerEscalations(api: Api, { delivery, journal }: EscalationsParts): void {
  const { escalations } = journal.notifications;

  api.get(
    '/api/notifications/people',
    { config: viewer, schema: { response: { 200: recipientsSchema } } },
    async () => ({
      people: (await delivery.people.listeners()).map(({ personId, name, channels }) => ({
        id: personId,
        name,
        channels: [...new Set(channels.map(({ channel }) => channel))],
      })),
    }),
  );

  api.get(
    '/api/notifications/escalations',
    { config: viewer, schema: { response: { 200: escalationAnswerSchema } } },
    async () => ({
      escalations: (await escalations.list()).map(({ siteId, personIds, afterMin }) => ({
        site: siteId,
        personIds: [...personIds],
        afterMin,
      })),
    }),
  );

  api.put(
    '/api/notifications/escalations/:site',
    {
      config: { access: 'owner', does: 'audit.did.changed-who-is-notified-first' },
      schema: { params: siteParams, body: escalationSchema, response: { 200: escalationSchema } },
    },
    async (request, reply) => {
      const { site } = request.params;
      if (!(await journal.sites.list()).some(({ id }) => id === site)) return notFound(reply, 'site', site);
      await escalations.set({ siteId: site, ...request.body });
      return request.body;
    },
  );
}
