/** Apprise API: a server of one's own that passes messages on to what is kept there under a key. */
import { z } from 'zod';
import { fieldCode } from '../messages/field-code.ts';
import { type NotificationService, serverAddress } from './service.ts';

export const apprise = {
  name: 'Apprise',
  fields: {
    server: { schema: serverAddress },
    key: {
      schema: z
        .string()
        .trim()
        .regex(/^[-_A-Za-z0-9]{1,128}$/, fieldCode('field.apprise-key')),
      isSecret: true,
    },
  },
} as const satisfies NotificationService;
