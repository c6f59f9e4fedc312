/** Who was notified of an alarm, when and how it went; what could not be delivered; the orders of sites. */
import { z } from 'zod';
import type { Clock } from '../../../shared/clock.ts';
import {
  alarmLinkAnswerSchema,
  escalationAnswerSchema,
  escalationSchema,
  recipientsSchema,
  serverNotificationsAnswerSchema,
  serverNotificationsSchema,
  undeliveredAnswerSchema,
} from '../../../shared/contracts/notifications.ts';
import type { Journal } from '../../../shared/store/journal.ts';
import type { Delivery } from '../../notify/delivery.ts';
import { contentOf } from '../../notify/messages.ts';
import { messageView, notificationView } from '../../services/views/notification-view.ts';
import type { Api } from '../api.ts';
import { notFound } from '../problem.ts';
import { readerOf } from '../reader-of.ts';

const idParams = z.object({ id: z.string().min(1).max(100) });
const siteParams = z.object({ site: z.string().min(1).max(64) });
const mostShown = 100;
const viewer = { access: 'viewer' as const };
const owner = { access: 'owner' as const };

interface AlarmLinkAnswersParts {
  readonly delivery: Delivery;
  readonly journal: Journal;
  readonly clock: Clock;
}

export function registerAlarmLinkAnswers(api: Api, { delivery, journal, clock }: AlarmLinkAnswersParts): void {
  const { notifications } = journal;

  api.get(
    '/api/alarms/:id/notifications',
    { config: viewer, schema: { params: idParams, response: { 200: alarmLinkAnswerSchema } } },
    async (request, reply) => {
      const { id } = request.params;
      if (!(await journal.alarms.get(id))) return notFound(reply, 'alarm', id);
      return { notices: (await notifications.notices.ofAlarm(id)).map(notificationView) };
    },
  );

  api.get(
    '/api/notifications/undelivered',
    { config: viewer, schema: { response: { 200: undeliveredAnswerSchema } } },
    async (request) => {
      const lost = await notifications.messages.undelivered(mostShown);
      const { language } = readerOf(request, clock.nowMs());
      const reader = { timeZone: 'UTC', unit: 'C' as const, language };
      const words = lost.map(async ({ notice, ...message }) => ({
        ...messageView(message),
        sentence: (await contentOf({ journal, clock, publicUrl: undefined }, notice, message.personName, reader))
          .sentence,
        pileId: notice.pileId,
      }));
      return { messages: await Promise.all(words) };
    },
  );

  api.post(
    '/api/notifications/undelivered/:id/seen',
    {
      config: { access: 'keeper', does: 'saw what could not be delivered' },
      schema: { params: idParams, response: { 204: z.undefined() } },
    },
    async (request, reply) => {
      const { id } = request.params;
      if (!(await notifications.messages.seen(id, clock.nowMs()))) return notFound(reply, 'undelivered message', id);
      return reply.code(204).send();
    },
  );

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
      orders: (await notifications.escalations.list()).map(({ siteId, personIds, afterMin }) => ({
        site: siteId,
        personIds: [...personIds],
        afterMin,
      })),
    }),
  );

  api.put(
    '/api/notifications/escalations/:site',
    {
      config: { ...owner, does: 'changed who is told first' },
      schema: { params: siteParams, body: escalationSchema, response: { 200: escalationSchema } },
    },
    async (request, reply) => {
      const { site } = request.params;
      if (!(await journal.sites.list()).some(({ id }) => id === site)) return notFound(reply, 'site', site);
      await notifications.escalations.set({ siteId: site, ...request.body });
      return request.body;
    },
  );

  const ofInstallation = async () => ({
    allowedAddresses: [...(await delivery.settings.allowed())],
    heartbeatUrl: (await delivery.settings.heartbeatUrl()) ?? null,
    heartbeat: delivery.heartbeat(),
  });
  api.get(
    '/api/notifications/server',
    { config: owner, schema: { response: { 200: serverNotificationsAnswerSchema } } },
    ofInstallation,
  );
  api.put(
    '/api/notifications/server',
    {
      config: { ...owner, does: 'changed where messages may go' },
      schema: { body: serverNotificationsSchema, response: { 200: serverNotificationsAnswerSchema } },
    },
    async (request) => {
      await delivery.settings.setAllowed(request.body.allowedAddresses);
      await delivery.settings.setHeartbeatUrl(request.body.heartbeatUrl);
      return ofInstallation();
    },
  );
}
