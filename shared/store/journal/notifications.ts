/** The outbox of the journal and what stands around it. */
import type { NotificationsStore } from '../notifications-store.ts';
import type { JournalBase } from './journal-base.ts';
import { journalMailAddresses } from './mail-addresses.ts';
import { journalMessages } from './messages.ts';
import { journalNotices } from './notices.ts';
import { journalNotificationPreferences } from './notification-preferences.ts';

export function journalNotifications(base: JournalBase): NotificationsStore {
  return {
    notices: journalNotices(base),
    messages: journalMessages(base),
    ...journalNotificationPreferences(base),
    mailAddresses: journalMailAddresses(base),
  };
}
