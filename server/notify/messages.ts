/** The message of a notice, in one person's words. */
import { alarmMessage, type NoticeSources } from '../../core/notify/alarm-content.ts';
import type { NoticeContent } from '../../core/notify/notice-content.ts';
import {
  confirmationContent,
  lostContent,
  measureMessage,
  type SiteMessageParts,
  siteMessage,
  summaryMessage,
  systemMessage,
  testMessage,
} from '../../core/notify/other-contents.ts';
import { adviceOf } from '../../core/say/advice.ts';
import { advisedAlarm } from '../../core/say/alarm-view.ts';
import type { Clock } from '../../shared/clock.ts';
import type { Journal } from '../../shared/store/journal.ts';
import type { NoticeRecord } from '../../shared/store/notifications-store.ts';
import { type MessageContent, type MessageReader, renderContent } from './channels/render-content.ts';
import { mailCode } from './mail-code.ts';

export interface MessageParts {
  readonly journal: {
    readonly piles: Pick<Journal['piles'], 'get'>;
    readonly sites: Pick<Journal['sites'], 'list'>;
    readonly alarms: Pick<Journal['alarms'], 'open'>;
    readonly settings: Pick<Journal['settings'], 'get' | 'set'>;
  };
  readonly clock: Clock;
  readonly publicUrl: string | undefined;
}

export async function contentOf(
  parts: MessageParts,
  notice: NoticeRecord,
  personName: string,
  reader: MessageReader,
): Promise<MessageContent> {
  const nowMs = parts.clock.nowMs();
  return renderContent(await saidIn(parts, notice, personName, nowMs), reader, nowMs);
}

async function saidIn(
  { journal }: MessageParts,
  notice: NoticeRecord,
  personName: string,
  nowMs: number,
): Promise<NoticeContent> {
  const { facts } = notice;
  const siteName = async () =>
    (await journal.sites.list()).find(({ id }) => id === notice.siteId)?.name ?? notice.siteId ?? '';
  if (notice.answer === 'test') return testMessage(personName);
  if ('codeFor' in facts) {
    const { codeFor: address, askedAtMs } = facts;
    return confirmationContent(
      await mailCode(journal.settings, { personId: notice.personId ?? '', address, askedAtMs }),
    );
  }
  if ('piles' in facts) return summaryMessage(facts.piles);
  if ('said' in facts) return systemMessage(facts, notice.answer === 'cleared');
  if ('probeCount' in facts)
    return siteMessage({
      answer: notice.answer as SiteMessageParts['answer'],
      facts,
      siteName: await siteName(),
      nowMs,
      notReached: facts.notReached,
    });
  const pile = notice.pileId === null ? undefined : await journal.piles.get(notice.pileId);
  const pileName = pile?.name ?? 'A pile';
  if ('due' in facts) return measureMessage(pileName, await siteName(), facts.due);
  if (!('kind' in facts)) return lostContent(pileName, await siteName());
  return alarmMessage({
    answer: notice.answer,
    facts: await advisedFacts(journal, notice, facts),
    pileName,
    siteName: await siteName(),
    nowMs,
    notReached: facts.notReached,
  });
}

/** The order as it stands when the message is sent or read: it may have grown graver since, and a graver alarm may have come. */
async function advisedFacts(
  { alarms }: Pick<MessageParts['journal'], 'alarms'>,
  { pileId, alarmId }: NoticeRecord,
  facts: NoticeSources,
): Promise<NoticeSources> {
  if (pileId === null) return facts;
  const open = await alarms.open(pileId);
  const own = open.find(({ id }) => id === alarmId);
  const asked = own === undefined ? { ...facts, stands: false, eases: false } : advisedAlarm(own);
  const { todo, byMs, caution, from } = adviceOf(asked, open.map(advisedAlarm));
  const seen = own?.words.seen ?? facts.seen;
  return { ...facts, seen, todo, byMs, caution, ...(from && { adviceFrom: from.kind }) };
}

export function pageOf({ publicUrl }: Pick<MessageParts, 'publicUrl'>, notice: NoticeRecord): string | undefined {
  if (publicUrl === undefined) return undefined;
  if (notice.about === 'alarm' && notice.pileId !== null)
    return `${publicUrl}/piles/${encodeURIComponent(notice.pileId)}`;
  if (notice.answer === 'measure-due' && notice.pileId !== null)
    return `${publicUrl}/piles/${encodeURIComponent(notice.pileId)}/journal?write=measured`;
  return notice.answer === 'test' || notice.answer === 'confirmation' ? `${publicUrl}/notifications` : `${publicUrl}/`;
}
