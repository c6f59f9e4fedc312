/**
 * Links in messages by which a warning is acknowledged without signing in. It never acknowledges because an address was
 * opened: mail programs open every address they see.
 */
import { createHash, randomBytes } from 'node:crypto';
import type { MessageRecord, NoticeRecord, NotificationsStore } from '../../shared/store/notifications-store.ts';
import { msPerDay } from '../../shared/units.ts';

const livesMs = 3 * msPerDay;
export const alarmLinkPath = '/acknowledge/';
/** Where links of earlier versions point. */
export const earlierAlarmLinkPath = '/told/';

export function digestOf(secret: string): string {
  return createHash('sha256').update(secret).digest('hex');
}

/** Whether there is something to acknowledge about it. */
export function canAcknowledge({ about, answer }: Pick<NoticeRecord, 'about' | 'answer'>): boolean {
  return (about === 'alarm' || about === 'site') && answer !== 'cleared';
}

/** @returns The secret; a new one for every attempt, since an earlier message may have arrived all the same. */
export async function makeLink(
  notifications: NotificationsStore,
  notice: NoticeRecord,
  message: MessageRecord,
  nowMs: number,
): Promise<string> {
  const secret = randomBytes(32).toString('base64url');
  await notifications.links.add({
    digest: digestOf(secret),
    noticeId: notice.id,
    personId: message.personId,
    personName: message.personName,
    channel: message.channel,
    expiresAtMs: nowMs + livesMs,
    usedAtMs: null,
  });
  return secret;
}
