/** What is said of each service and its fields; the compiler names what a new one still needs. */
import type { PageNotificationsParams } from '../../../../shared/messages/made/params/page-notifications.ts';
import type { NoParams } from '../../../../shared/messages/param-types.ts';
import type { notificationServices, ServiceChannel } from '../../../../shared/notification-services/services.ts';

/** Texts that need nothing filled in. */
type PlainCode = {
  [Code in keyof PageNotificationsParams]: PageNotificationsParams[Code] extends NoParams ? Code : never;
}[keyof PageNotificationsParams];

type ServiceTexts = {
  readonly [Channel in ServiceChannel]: {
    readonly hint: PlainCode;
    readonly fields: Readonly<Record<keyof (typeof notificationServices)[Channel]['fields'], PlainCode>>;
  };
};

const server = 'page-notifications.service.server';
const token = 'page-notifications.service.token';

const serviceTexts: ServiceTexts = {
  ntfy: {
    hint: 'page-notifications.service.ntfy',
    fields: { topic: 'page-notifications.service.ntfy.topic', server, token: 'page-notifications.service.ntfy.token' },
  },
  pushover: {
    hint: 'page-notifications.service.pushover',
    fields: {
      user: 'page-notifications.service.pushover.user',
      token: 'page-notifications.service.pushover.token',
    },
  },
  telegram: {
    hint: 'page-notifications.service.telegram',
    fields: {
      token: 'page-notifications.service.telegram.token',
      chat: 'page-notifications.service.telegram.chat',
    },
  },
  matrix: {
    hint: 'page-notifications.service.matrix',
    fields: { server, room: 'page-notifications.service.matrix.room', token },
  },
  apprise: {
    hint: 'page-notifications.service.apprise',
    fields: { server, key: 'page-notifications.service.apprise.key' },
  },
};

export const textsOfService = (
  channel: ServiceChannel,
): { readonly hint: PlainCode; readonly fields: Readonly<Record<string, PlainCode>> } => serviceTexts[channel];
