/** One message for a site that fell silent, instead of one per probe. */
import type { Journal } from '../../shared/store/journal.ts';
import type { FanOut, KeptNotice, NoticeRecord } from '../../shared/store/notifications-store.ts';

export async function groupSilence(
  notice: KeptNotice,
  journal: Pick<Journal, 'notifications' | 'alarms'>,
  newId: () => string,
): Promise<FanOut | undefined> {
  if (notice.about !== 'alarm' || notice.siteId === null) return undefined;
  const { facts } = notice;
  if (!('kind' in facts) || facts.kind !== 'probe-silent') return undefined;
  if (notice.answer === 'cleared') return clearedWithSite(notice, journal);
  if (notice.answer !== 'first-raise') return undefined;
  if (facts.site === undefined) return stillSilent(notice, journal);
  // While nobody speaks the last word heard stays the same, and with it the key.
  const key = `site-silent/${notice.siteId}/${facts.site.sinceMs}`;
  const known = await journal.notifications.notices.byKey(key);
  if (known) return { noticeId: notice.id, state: 'joined', joinedId: known.id };
  const { state: _, joinedId: __, ...same } = notice;
  const ofSite: NoticeRecord = {
    ...same,
    id: newId(),
    key,
    about: 'site',
    pileId: null,
    rank: Math.max(notice.rank, 1),
    facts: facts.site,
  };
  return { noticeId: notice.id, state: 'joined', joinedId: ofSite.id, notices: [ofSite] };
}

/** Of a probe that fell silent with its site people hear through the site. */
async function clearedWithSite(
  notice: KeptNotice,
  { notifications }: Pick<Journal, 'notifications'>,
): Promise<FanOut | undefined> {
  if (notice.alarmId === null) return undefined;
  const own = await notifications.notices.ofAlarm(notice.alarmId);
  const alone = own.some(
    ({ about, answer, state }) => about === 'alarm' && answer === 'first-raise' && state === 'fanned-out',
  );
  const site = own.find(({ about }) => about === 'site');
  return site && !alone ? { noticeId: notice.id, state: 'joined', joinedId: site.id } : undefined;
}

/** A probe that stayed silent after its site spoke again is notified by itself, unless it has spoken since. */
async function stillSilent(notice: KeptNotice, { alarms }: Pick<Journal, 'alarms'>): Promise<FanOut | undefined> {
  if (!notice.key.endsWith(aloneEnding) || notice.alarmId === null) return undefined;
  const alarm = await alarms.get(notice.alarmId);
  return alarm?.state === 'unacknowledged' ? undefined : { noticeId: notice.id, state: 'dropped' };
}

/** Ends the key of a notice about a probe that stayed silent when its site spoke again. */
export const aloneEnding = '/alone';
