/**
 * A code to the address of one's preferences, and the code entered: only then does anything else go there.
 */
import { z } from 'zod';
import { mailAnswerSchema, mailCodeSchema } from '../../../shared/contracts/notifications.ts';
import { message } from '../../../shared/messages/message.ts';
import type { Delivery } from '../../notify/delivery.ts';
import { Refusal } from '../../refusal.ts';
import type { Api } from '../api.ts';
import { audit } from '../audit-hook.ts';
import { recipientAsking } from '../recipient-asking.ts';

const viewer = { access: 'viewer' as const };

export function registerMailAddress(api: Api, delivery: Delivery): void {
  const { mail } = delivery;

  api.post(
    '/api/notifications/mail/code',
    {
      config: { ...viewer, does: 'audit.did.had-code-sent-to-mail-address' },
      schema: { response: { 202: z.object({ id: z.string() }) } },
    },
    async (request, reply) => {
      const { id: personId } = await recipientAsking(delivery.people, request);
      if (!delivery.can('email')) throw new Refusal(409, message('problem.mail.no-server'));
      const id = await mail.sendCode(personId);
      audit(request, { subject: (await delivery.people.preferencesOf(personId)).email.address });
      return reply.code(202).send({ id });
    },
  );

  api.post(
    '/api/notifications/mail/confirmation',
    {
      config: {
        ...viewer,
        does: 'audit.did.confirmed-mail-address',
        rateLimit: { max: 30, timeWindow: 60_000 },
      },
      schema: { body: mailCodeSchema, response: { 200: mailAnswerSchema } },
    },
    async (request) => {
      const { id } = await recipientAsking(delivery.people, request);
      const address = await mail.confirm(id, request.body.code);
      audit(request, { subject: address, after: undefined });
      return mail.view(id);
    },
  );
}
