/**
 * shared/store/journal/notifications.ts: the outbox of the journal and what stands around it.
 */
import type { TellingStore } from '../notifications-store.ts';
import type { JournalBase } from './journal-base.ts';
import { journalMailAddresses } from './mail-addresses.ts';
import { journalMessages } from './messages.ts';
import { journalNotices } from './notices.ts';
import { journalTellingPeople } from './notification-preferences.ts';

export function journalTelling(base: JournalBase): TellingStore {
  return {
    notices: journalNotices(base),
    messages: journalMessages(base),
    ...journalTellingPeople(base),
    mailAddresses: journalMailAddresses(base),
  };
}
