/** Pushover: messages to the devices of a person; urgent ones ring until somebody acknowledges. */
import { z } from 'zod';
import { fieldCode } from '../messages/field-code.ts';
import type { NotificationService } from './service.ts';

/** 30 characters (from memory). */
const key = z
  .string()
  .trim()
  .regex(/^[A-Za-z0-9]{30}$/, fieldCode('field.pushover-key'));

export const pushover = {
  name: 'Pushover',
  home: 'https://api.pushover.net',
  fields: {
    user: { schema: key, isSecret: true },
    token: { schema: key, isSecret: true },
  },
} as const satisfies NotificationService;
