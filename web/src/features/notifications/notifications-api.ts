/** The routes of being told, one function each. */
import { z } from 'zod';
import {
  alarmLinkAnswerSchema,
  escalationAnswerSchema,
  type escalationSchema,
  mailAnswerSchema,
  notificationSchema,
  pushDeviceSchema,
  serverNotificationsAnswerSchema,
  type serverNotificationsSchema,
  tellingAnswerSchema,
  tellingPeopleSchema,
  undeliveredAnswerSchema,
} from '../../../../shared/contracts/notifications.ts';
import type { NotificationChannel, Preferences } from '../../../../shared/notifications.ts';
import { ask } from '../../data/client.ts';

const made = z.object({ id: z.string() });
const nothing = z.unknown();
const piece = encodeURIComponent;

export const getTelling = () => ask(tellingAnswerSchema, '/api/telling');
export const savePreferences = (wishes: Preferences) =>
  ask(tellingAnswerSchema, '/api/telling', { method: 'PUT', body: wishes });
export const addDevice = (device: { endpoint: string; keys: { p256dh: string; auth: string }; label: string }) =>
  ask(pushDeviceSchema, '/api/telling/devices', { method: 'POST', body: device });
export const removeDevice = (id: string) => ask(nothing, `/api/telling/devices/${piece(id)}`, { method: 'DELETE' });
export const sendTest = (way: NotificationChannel) => ask(made, '/api/telling/test', { method: 'POST', body: { way } });
export const sendMailCode = () => ask(made, '/api/telling/mail/code', { method: 'POST' });
export const confirmMail = (code: string) =>
  ask(mailAnswerSchema, '/api/telling/mail/confirmation', { method: 'POST', body: { code } });
export const getNotice = (id: string) => ask(notificationSchema, `/api/telling/notices/${piece(id)}`);
export const renewSecret = () =>
  ask(z.object({ secret: z.string() }), '/api/telling/webhook-secret', { method: 'POST' });

export const getTold = (alarmId: string) => ask(alarmLinkAnswerSchema, `/api/alarms/${piece(alarmId)}/told`);
export const getUndelivered = () => ask(undeliveredAnswerSchema, '/api/telling/undelivered');
export const sayUndeliveredSeen = (id: string) =>
  ask(nothing, `/api/telling/undelivered/${piece(id)}/seen`, { method: 'POST' });

export const getTellingPeople = () => ask(tellingPeopleSchema, '/api/telling/people');
export const getOrders = () => ask(escalationAnswerSchema, '/api/telling/orders');
export const saveOrder = (site: string, order: z.input<typeof escalationSchema>) =>
  ask(nothing, `/api/telling/orders/${piece(site)}`, { method: 'PUT', body: order });
export const getServerNotifications = () => ask(serverNotificationsAnswerSchema, '/api/telling/house');
export const saveServerNotifications = (installation: z.input<typeof serverNotificationsSchema>) =>
  ask(serverNotificationsAnswerSchema, '/api/telling/house', { method: 'PUT', body: installation });
