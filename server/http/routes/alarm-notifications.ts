/** Who was notified of an alarm, when and how it went, and what could not be delivered. */
import { z } from 'zod';
import type { Clock } from '../../../shared/clock.ts';
import { alarmLinkAnswerSchema, undeliveredAnswerSchema } from '../../../shared/contracts/notifications.ts';
import type { Journal } from '../../../shared/store/journal.ts';
import { contentOf } from '../../notify/messages.ts';
import { messageView, notificationView } from '../../services/views/notification-view.ts';
import type { Api } from '../api.ts';
import { notFound } from '../problem.ts';
import { readerOf } from '../reader-of.ts';

const idParams = z.object({ id: z.string().min(1).max(100) });
const mostShown = 100;
const viewer = { access: 'viewer' as const };

interface AlarmNotificationsParts {
  readonly journal: Journal;
  readonly clock: Clock;
}

export function registerAlarmNotifications(api: Api, { journal, clock }: AlarmNotificationsParts): void {
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
      config: { access: 'keeper', does: 'audit.did.saw-what-could-not-be-delivered' },
      schema: { params: idParams, response: { 204: z.undefined() } },
    },
    async (request, reply) => {
      const { id } = request.params;
      if (!(await notifications.messages.seen(id, clock.nowMs()))) return notFound(reply, 'undelivered', id);
      return reply.code(204).send();
    },
  );
}
