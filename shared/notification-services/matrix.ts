/** Matrix: messages to a room, by an account that has joined it. */
import { z } from 'zod';
import { fieldCode } from '../messages/field-code.ts';
import { type NotificationService, plainToken, serverAddress } from './service.ts';

export const matrix = {
  name: 'Matrix',
  fields: {
    server: { schema: serverAddress },
    room: {
      schema: z
        .string()
        .trim()
        .max(255)
        .regex(/^![\x21-\x7e]+$/, fieldCode('field.matrix-room')),
    },
    token: { schema: plainToken, isSecret: true },
  },
} as const satisfies NotificationService;
