/** Services that bring messages: filled in and taken away, each person for themselves. What is secret never comes back. */
import { z } from 'zod';
import { serviceViewSchema } from '../../../shared/contracts/notifications.ts';
import { message } from '../../../shared/messages/message.ts';
import { serviceAskSchema, serviceChannelSchema } from '../../../shared/notification-services/services.ts';
import type { Delivery } from '../../notify/delivery.ts';
import { Refusal } from '../../refusal.ts';
import type { Api } from '../api.ts';
import { audit } from '../audit-hook.ts';
import { notFound } from '../problem.ts';
import { recipientAsking } from '../recipient-asking.ts';

const viewer = { access: 'viewer' as const };
const viewsSchema = z.object({ services: z.array(serviceViewSchema) });

export function registerNotificationServices(api: Api, { people, services }: Delivery): void {
  api.put(
    '/api/notifications/services',
    {
      config: { ...viewer, does: 'audit.did.set-up-notification-service' },
      schema: {
        description: 'A secret that is left out stays as it was.',
        body: serviceAskSchema,
        response: { 200: viewsSchema },
      },
    },
    async (request) => {
      const { id } = await recipientAsking(people, request);
      const missing = await services.set(id, request.body);
      const fields = missing.map((key) => ({ pointer: `/values/${key}`, said: message('field.missing') }));
      if (fields.length > 0) throw new Refusal(400, message('field.missing'), { fields });
      audit(request, { subject: request.body.channel, after: undefined });
      return { services: await services.views(id) };
    },
  );

  api.delete(
    '/api/notifications/services/:channel',
    {
      config: { ...viewer, does: 'audit.did.removed-notification-service' },
      schema: { params: z.object({ channel: serviceChannelSchema }), response: { 204: z.undefined() } },
    },
    async (request, reply) => {
      const { id } = await recipientAsking(people, request);
      const { channel } = request.params;
      const removed = await services.remove(id, channel);
      return removed ? reply.code(204).send() : notFound(reply, 'device', channel);
    },
  );
}
