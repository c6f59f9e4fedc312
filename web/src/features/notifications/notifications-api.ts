/** The routes of notifications, one function each. */
import { z } from 'zod';
import {
  alarmLinkAnswerSchema,
  escalationAnswerSchema,
  type escalationSchema,
  mailAnswerSchema,
  notificationSchema,
  notificationsAnswerSchema,
  pushDeviceSchema,
  recipientsSchema,
  serverNotificationsAnswerSchema,
  type serverNotificationsSchema,
  undeliveredAnswerSchema,
} from '../../../../shared/contracts/notifications.ts';
import type { ServiceChannel, serviceAskSchema } from '../../../../shared/notification-services/services.ts';
import type { NotificationChannel, Preferences } from '../../../../shared/notifications.ts';
import { ask } from '../../data/client.ts';

const made = z.object({ id: z.string() });
const nothing = z.unknown();
const piece = encodeURIComponent;

export const getNotifications = () => ask(notificationsAnswerSchema, '/api/notifications');
export const savePreferences = (preferences: Preferences) =>
  ask(notificationsAnswerSchema, '/api/notifications', { method: 'PUT', body: preferences });
export const addDevice = (device: { endpoint: string; keys: { p256dh: string; auth: string }; label: string }) =>
  ask(pushDeviceSchema, '/api/notifications/devices', { method: 'POST', body: device });
export const removeDevice = (id: string) =>
  ask(nothing, `/api/notifications/devices/${piece(id)}`, { method: 'DELETE' });
export const sendTest = (channel: NotificationChannel) =>
  ask(made, '/api/notifications/test', { method: 'POST', body: { channel } });
export const sendMailCode = () => ask(made, '/api/notifications/mail/code', { method: 'POST' });
export const confirmMail = (code: string) =>
  ask(mailAnswerSchema, '/api/notifications/mail/confirmation', { method: 'POST', body: { code } });
export const getNotice = (id: string) => ask(notificationSchema, `/api/notifications/notices/${piece(id)}`);
export const saveService = (service: z.input<typeof serviceAskSchema>) =>
  ask(nothing, '/api/notifications/services', { method: 'PUT', body: service });
export const removeService = (channel: ServiceChannel) =>
  ask(nothing, `/api/notifications/services/${channel}`, { method: 'DELETE' });
export const renewSecret = () =>
  ask(z.object({ secret: z.string() }), '/api/notifications/webhook-secret', { method: 'POST' });

export const getSentNotifications = (alarmId: string) =>
  ask(alarmLinkAnswerSchema, `/api/alarms/${piece(alarmId)}/notifications`);
export const getUndelivered = () => ask(undeliveredAnswerSchema, '/api/notifications/undelivered');
export const sayUndeliveredSeen = (id: string) =>
  ask(nothing, `/api/notifications/undelivered/${piece(id)}/seen`, { method: 'POST' });

export const getRecipients = () => ask(recipientsSchema, '/api/notifications/people');
export const getEscalations = () => ask(escalationAnswerSchema, '/api/notifications/escalations');
export const saveOrder = (site: string, order: z.input<typeof escalationSchema>) =>
  ask(nothing, `/api/notifications/escalations/${piece(site)}`, { method: 'PUT', body: order });
export const getServerNotifications = () => ask(serverNotificationsAnswerSchema, '/api/notifications/server');
export const saveServerNotifications = (installation: z.input<typeof serverNotificationsSchema>) =>
  ask(serverNotificationsAnswerSchema, '/api/notifications/server', { method: 'PUT', body: installation });
