/**
 * A notice whose facts cannot be read is set aside, and the owners are notified of that: tried again it would fail again,
 * and hold up every notice behind it.
 */
import type { SystemFacts } from '../../core/notify/other-contents.ts';
import { message } from '../../shared/messages/message.ts';
import { rankOf } from '../../shared/notifications.ts';
import type { FanOut, KeptNotice, NoticeRecord } from '../../shared/store/notifications-store.ts';

const keyEnding = '/set-aside';

/** @param pileName Of the pile it was about, where there is one. */
export function setAside(
  { id, key }: Pick<KeptNotice, 'id' | 'key'>,
  pileName: string | undefined,
  nowMs: number,
  newId: () => string,
): FanOut {
  // One about a notice that was set aside is not followed by another.
  if (key.endsWith(keyEnding)) return { noticeId: id, state: 'set-aside' };
  const pile = { isPileKnown: pileName !== undefined, pileName: pileName ?? '' };
  const facts: SystemFacts = {
    said: message('notice.system.set-aside', pile),
    todo: message('notice.system.set-aside.todo', pile),
    short: message('notice.system.set-aside.short'),
  };
  const notice: NoticeRecord = {
    id: newId(),
    key: `${id}${keyEnding}`,
    about: 'server',
    answer: 'first-raise',
    rank: rankOf('urgent'),
    siteId: null,
    pileId: null,
    alarmId: null,
    personId: null,
    atMs: nowMs,
    dueMs: nowMs,
    facts,
  };
  return { noticeId: id, state: 'set-aside', notices: [notice] };
}
