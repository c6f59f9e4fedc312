/** Telegram: messages of a bot to a chat. */
import { z } from 'zod';
import { fieldCode } from '../messages/field-code.ts';
import type { NotificationService } from './service.ts';

export const telegram = {
  name: 'Telegram',
  home: 'https://api.telegram.org',
  fields: {
    // It stands in the address that is called.
    token: {
      schema: z
        .string()
        .trim()
        .regex(/^\d{1,20}:[-_A-Za-z0-9]{10,100}$/, fieldCode('field.telegram-token')),
      isSecret: true,
    },
    chat: {
      schema: z
        .string()
        .trim()
        .regex(/^(?:-?\d{1,20}|@[A-Za-z0-9_]{1,64})$/, fieldCode('field.telegram-chat')),
    },
  },
} as const satisfies NotificationService;
