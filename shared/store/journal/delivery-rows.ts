/** Notices and messages between records and rows. */

import { factsSchemaOf, lostFacts } from '../../notice-facts.ts';
import type { KeptNotice, MessageRecord, NoticeRecord } from '../notifications-store.ts';
import type { JournalTransaction } from './journal-base.ts';
import { messageText, readMessageText } from './message-text.ts';
import type { RowPlan } from './read-rows.ts';

/** A key that is known is left as it is. */
export async function addNotices(transaction: JournalTransaction, notices: readonly NoticeRecord[]): Promise<void> {
  for (const notice of notices) {
    await transaction
      .insertInto('notice')
      .values({
        id: notice.id,
        key: notice.key,
        about: notice.about,
        answer: notice.answer,
        rank: notice.rank,
        site_id: notice.siteId,
        pile_id: notice.pileId,
        alarm_id: notice.alarmId,
        person_id: notice.personId,
        at_ms: notice.atMs,
        due_ms: notice.dueMs,
        facts: JSON.stringify(notice.facts),
        state: 'new',
        joined_id: null,
        taken_by: null,
        taken_until_ms: null,
      })
      .onConflict((conflict) => conflict.column('key').doNothing())
      .execute();
  }
}

/** The same notice to the same person by the same channel is one message. */
export async function insertMessages(
  transaction: JournalTransaction,
  messages: readonly MessageRecord[],
): Promise<void> {
  for (const message of messages) {
    await transaction
      .insertInto('message')
      .values({
        id: message.id,
        notice_id: message.noticeId,
        person_id: message.personId,
        person_name: message.personName,
        channel: message.channel,
        address: message.address,
        address_label: message.addressLabel,
        rank: message.rank,
        state: message.state,
        reason: message.reason && messageText(message.reason),
        made_at_ms: message.madeAtMs,
        not_before_ms: message.notBeforeMs,
        tries: message.tries,
        next_try_ms: message.nextTryMs,
        done_at_ms: message.doneAtMs,
        seen_at_ms: message.seenAtMs,
        taken_by: null,
        taken_until_ms: null,
      })
      .onConflict((conflict) => conflict.columns(['notice_id', 'person_id', 'channel', 'address']).doNothing())
      .execute();
  }
}

/** A notice whose words are lost goes out all the same: that there is something to see to. */
export const noticePlan: RowPlan<'notice', KeptNotice> = {
  table: 'notice',
  toRecord: (row, json) => ({
    id: row.id,
    key: row.key,
    about: row.about,
    answer: row.answer,
    rank: row.rank,
    siteId: row.site_id,
    pileId: row.pile_id,
    alarmId: row.alarm_id,
    personId: row.person_id,
    atMs: row.at_ms,
    dueMs: row.due_ms,
    facts: json('facts', row.facts, factsSchemaOf(row.about, row.answer), lostFacts),
    state: row.state,
    joinedId: row.joined_id,
  }),
  standIns: () => ({ rank: 2, joined_id: null, taken_by: null, taken_until_ms: null }),
};

export const messagePlan: RowPlan<'message', MessageRecord> = {
  table: 'message',
  toRecord: (row, json) => ({
    id: row.id,
    noticeId: row.notice_id,
    personId: row.person_id,
    personName: row.person_name,
    channel: row.channel,
    address: row.address,
    addressLabel: row.address_label,
    rank: row.rank,
    state: row.state,
    reason: row.reason === null ? null : readMessageText(json, 'reason', row.reason),
    madeAtMs: row.made_at_ms,
    notBeforeMs: row.not_before_ms,
    tries: row.tries,
    nextTryMs: row.next_try_ms,
    doneAtMs: row.done_at_ms,
    seenAtMs: row.seen_at_ms,
  }),
  standIns: () => ({ reason: null, rank: 2, taken_by: null, taken_until_ms: null }),
};
