/** The columns of what people are notified of. */
import type {
  AttemptOutcome,
  KeptMailStanding,
  MessageState,
  NoticeReason,
  NoticeSubject,
  NotificationChannel,
} from '../../notifications.ts';
import type { KeptNotice } from '../notifications-store.ts';

/** Who has taken it, and until when nobody else may [ms of the machine]. */
interface Taken {
  taken_by: string | null;
  taken_until_ms: number | null;
}

export interface DeliveryTables {
  notice: NoticeRow;
  message: MessageRow;
  message_attempt: {
    message_id: string;
    /** 1, 2, 3 ... within the message. */
    number: number;
    at_ms: number;
    took_ms: number;
    outcome: AttemptOutcome;
    detail: string;
  };
  /** `preferences` is JSON. */
  notification_preferences: { person_id: string; preferences: string };
  push_device: {
    id: string;
    person_id: string;
    endpoint: string;
    p256dh: string;
    auth: string;
    label: string;
    added_at_ms: number;
    last_ok_at_ms: number | null;
    /** The id of the session or token that signed it up. */
    made_with: string | null;
  };
  mail_address: {
    person_id: string;
    address: string;
    standing: KeptMailStanding;
    since_ms: number;
    asked_at_ms: number | null;
    tries: number;
  };
  notification_link: {
    digest: string;
    notice_id: string;
    person_id: string;
    person_name: string;
    channel: NotificationChannel;
    expires_at_ms: number;
    used_at_ms: number | null;
  };
  /** `person_ids` is JSON. */
  escalation: { site_id: string; person_ids: string; after_min: number };
  escalation_step: { alarm_id: string; step: number; at_ms: number };
}

interface NoticeRow extends Taken {
  id: string;
  key: string;
  about: NoticeSubject;
  answer: NoticeReason;
  rank: number;
  site_id: string | null;
  pile_id: string | null;
  alarm_id: string | null;
  person_id: string | null;
  at_ms: number;
  due_ms: number;
  /** JSON. */
  facts: string;
  state: KeptNotice['state'];
  joined_id: string | null;
}

interface MessageRow extends Taken {
  id: string;
  notice_id: string;
  person_id: string;
  person_name: string;
  channel: NotificationChannel;
  address: string;
  address_label: string;
  rank: number;
  state: MessageState;
  reason: string | null;
  made_at_ms: number;
  not_before_ms: number;
  tries: number;
  next_try_ms: number;
  done_at_ms: number | null;
  seen_at_ms: number | null;
}
