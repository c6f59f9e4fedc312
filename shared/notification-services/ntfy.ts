/** ntfy: messages to a topic, at ntfy.sh or a server of one's own. */
import { z } from 'zod';
import { fieldCode } from '../messages/field-code.ts';
import { type NotificationService, plainToken, serverAddress } from './service.ts';

export const ntfy = {
  name: 'ntfy',
  fields: {
    // Whoever knows it reads along.
    topic: {
      schema: z
        .string()
        .trim()
        .regex(/^[-_A-Za-z0-9]{1,64}$/, fieldCode('field.ntfy-topic')),
      isSecret: true,
    },
    server: { schema: serverAddress, usual: 'https://ntfy.sh' },
    token: { schema: plainToken, isSecret: true, isOptional: true },
  },
} as const satisfies NotificationService;
