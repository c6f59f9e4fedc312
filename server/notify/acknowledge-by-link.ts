/** Acknowledging from a message, by the secret of its link. */
import { isSilenced, isStanding } from '../../core/alarms/standing.ts';
import type { Clock } from '../../shared/clock.ts';
import { momentWords } from '../../shared/messages/format.ts';
import type { AlarmRecord, Journal } from '../../shared/store/journal.ts';
import type { KeptNotice, NotificationLink } from '../../shared/store/notifications-store.ts';
import type { PilePort } from '../monitor/pile/pile-port.ts';
import { type MessageContent, readerOf } from './channels/render-content.ts';
import { contentOf } from './messages.ts';
import { digestOf } from './notification-links.ts';
import type { Recipients } from './people.ts';

export interface AcknowledgeByLinkParts {
  readonly journal: Journal;
  readonly clock: Clock;
  readonly people: Recipients;
  readonly watch: Pick<PilePort, 'handleAlarm'>;
}

export interface AlarmLinkAnswer {
  /** `ready`: the button may be pressed. `done`: it was, just now. */
  readonly state: 'ready' | 'done' | 'nothing-left' | 'used' | 'too-old' | 'unknown';
  readonly heading: string;
  /** What the message said, and when it was made; while something is to be done, also what was seen and the cautions. */
  readonly message: string | null;
  readonly sentAt: string | null;
  readonly parts: MessageContent['parts'];
  readonly says: string;
  readonly pileId: string | null;
}

const channelWords = { email: 'the e-mail', push: 'the notification', webhook: 'the webhook' } as const;

export async function answerLink(
  parts: AcknowledgeByLinkParts,
  secret: string,
  press: boolean,
): Promise<AlarmLinkAnswer> {
  const { journal, clock, people } = parts;
  const link = await journal.notifications.links.get(digestOf(secret));
  const notice = link && (await journal.notifications.notices.get(link.noticeId));
  if (!link || !notice)
    return {
      state: 'unknown',
      heading: 'This link is not known',
      message: null,
      sentAt: null,
      parts: [],
      says: 'It may be cut off, or long over. Warnings that still stand are on the page of the piles.',
      pileId: null,
    };
  const reader = await people.readerOf(link.personId);
  const time = (atMs: number) => momentWords(atMs, readerOf(reader, clock.nowMs()));
  /** As it is to be done now, or, where that is over, in the words of then: "do it now" would send somebody in vain. */
  const letterAt = (nowMs: number) =>
    contentOf(
      { journal, clock: { ...clock, nowMs: () => nowMs }, publicUrl: undefined },
      notice,
      link.personName,
      reader,
    );
  const shown = { sentAt: time(notice.atMs), pileId: notice.pileId };
  const over = { ...shown, message: (await letterAt(notice.atMs)).sentence, parts: [] };
  const alarms = await alarmsOf(journal, notice);
  const asking = alarms.filter(({ state }) => state === 'unacknowledged' || state === 'returned-unacknowledged');
  if (link.usedAtMs !== null) {
    const says = `Acknowledged by ${link.personName} with this link, ${time(link.usedAtMs)}.`;
    return { ...over, state: 'used', heading: 'Acknowledged before', says };
  }
  if (link.expiresAtMs <= clock.nowMs()) {
    const says = 'Nothing is acknowledged by it any more. Open the pile to see how it stands now.';
    return { ...over, state: 'too-old', heading: 'This link is too old', says };
  }
  if (asking.length === 0) return { ...over, state: 'nothing-left', ...(await whoDid(journal, alarms)) };
  const { sentence: message, parts: cautions } = await letterAt(clock.nowMs());
  const standing = { ...shown, message, parts: cautions };
  if (!press)
    return {
      ...standing,
      state: 'ready',
      heading: 'Have you seen this?',
      says: 'Acknowledging stops the reminders and tells the others that you are on it.',
    };
  await acknowledge(parts, asking, link);
  // Used only now: whoever is cut off in between presses once more.
  await journal.notifications.links.use(link.digest, clock.nowMs());
  return {
    ...standing,
    state: 'done',
    heading: 'Acknowledged',
    says: `Acknowledged by ${link.personName}. The reminders stop; the others can see that you are on it.`,
  };
}

async function acknowledge(
  { watch }: AcknowledgeByLinkParts,
  alarms: readonly AlarmRecord[],
  link: NotificationLink,
): Promise<void> {
  for (const { id } of alarms) {
    await watch.handleAlarm(id, {
      kind: 'acknowledge',
      by: link.personName,
      note: `from ${channelWords[link.channel]}`,
    });
  }
}

/** The alarm of the message; of a silent site those of all its probes. */
async function alarmsOf(journal: Journal, notice: KeptNotice): Promise<AlarmRecord[]> {
  const joined = notice.about === 'site' ? await siteAlarms(journal, notice) : [];
  const ids = new Set([...(notice.alarmId === null ? [] : [notice.alarmId]), ...joined]);
  const alarms = await Promise.all([...ids].map((id) => journal.alarms.get(id)));
  return alarms.flatMap((alarm) => alarm ?? []);
}

/** A reminder about a site is a notice of its own: the probes joined the first one. */
async function siteAlarms(journal: Journal, notice: KeptNotice): Promise<string[]> {
  const ofAlarm = notice.alarmId === null ? [] : await journal.notifications.notices.ofAlarm(notice.alarmId);
  const firsts = ofAlarm.filter(({ about, answer }) => about === 'site' && answer === 'first-raise');
  const joined = await Promise.all(firsts.map(({ id }) => journal.notifications.notices.joinedTo(id)));
  return joined.flat().flatMap(({ alarmId }) => alarmId ?? []);
}

async function whoDid(
  journal: Journal,
  alarms: readonly AlarmRecord[],
): Promise<Pick<AlarmLinkAnswer, 'heading' | 'says'>> {
  if (alarms.some((alarm) => isSilenced(alarm) && isStanding(alarm.machine))) {
    const says =
      'It still stands, and somebody has put its notifications aside. Open the pile to see how it stands now.';
    return { heading: 'Put aside', says };
  }
  for (const { id, state } of alarms) {
    if (state !== 'acknowledged') continue;
    const step = (await journal.alarms.steps(id)).findLast(({ arrow }) => arrow === 'acknowledged');
    const heading = 'Acknowledged before';
    const says = step?.by ? `${step.by} has acknowledged it already.` : 'It has been acknowledged already.';
    return { heading, says: `${says} Open the pile to see how it stands now.` };
  }
  return { heading: 'It is over', says: 'The warning no longer stands, and there is nothing left to acknowledge.' };
}
