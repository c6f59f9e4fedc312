/** Acknowledging from a message, by the secret of its link. */
import { isSilenced, isStanding, isUnacknowledged } from '../../core/alarms/standing.ts';
import type { Clock } from '../../shared/clock.ts';
import { plainReader, type Reader } from '../../shared/messages/format.ts';
import { type Message, message } from '../../shared/messages/message.ts';
import { plainSpaces, render } from '../../shared/messages/render.ts';
import { isServiceChannel, serviceOf } from '../../shared/notification-services/services.ts';
import type { AlarmRecord, Journal } from '../../shared/store/journal.ts';
import type { KeptNotice, NotificationLink } from '../../shared/store/notifications-store.ts';
import type { PilePort } from '../pile/pile-port.ts';
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
  /** "The message of 2 May, 16:30"; null where there is none. */
  readonly sentAt: string | null;
  readonly parts: MessageContent['parts'];
  readonly says: string;
  readonly pileId: string | null;
  /** In which all of it is said (BCP 47). */
  readonly language: string;
}

const channelWords = { email: 'the e-mail', push: 'the notification', webhook: 'the webhook' } as const;
const wordsOf = (channel: NotificationLink['channel']) =>
  isServiceChannel(channel) ? serviceOf(channel).name : channelWords[channel];

export const answerLink = (parts: AcknowledgeByLinkParts, secret: string, press: boolean): Promise<AlarmLinkAnswer> =>
  answerLinkOf(parts, digestOf(secret), press);

/** The same where the digest of its secret is all that is kept. */
export async function answerLinkOf(
  parts: AcknowledgeByLinkParts,
  digest: string,
  press: boolean,
): Promise<AlarmLinkAnswer> {
  const { journal, clock, people } = parts;
  const link = await journal.notifications.links.get(digest);
  const notice = link && (await journal.notifications.notices.get(link.noticeId));
  if (!link || !notice || !(await people.mayAcknowledge(link.personId)))
    return {
      ...inWords(plainReader(clock.nowMs()), message('link.unknown'), message('link.unknown.says')),
      state: 'unknown',
      message: null,
      sentAt: null,
      parts: [],
      pileId: null,
    };
  const who = await people.readerOf(link.personId);
  const reader = readerOf(who, clock.nowMs());
  const said = (heading: Message, says: Message) => inWords(reader, heading, says);
  const { personName } = link;
  /** As it is to be done now, or, where that is over, in the words of then: "do it now" would send somebody in vain. */
  const messageAt = (nowMs: number) =>
    contentOf({ journal, clock: { ...clock, nowMs: () => nowMs }, publicUrl: undefined }, notice, personName, who);
  const sentAt = plainSpaces(render(message('link.sent', { sentAtMs: notice.atMs }), reader));
  const shown = { sentAt, pileId: notice.pileId };
  const over = { ...shown, message: (await messageAt(notice.atMs)).sentence, parts: [] };
  const alarms = await alarmsOf(journal, notice);
  const asking = alarms.filter(isUnacknowledged);
  if (link.usedAtMs !== null) {
    const says = message('link.used.says', { personName, usedAtMs: link.usedAtMs });
    return { ...over, state: 'used', ...said(message('link.used'), says) };
  }
  if (link.expiresAtMs <= clock.nowMs()) {
    return { ...over, state: 'too-old', ...said(message('link.too-old'), message('link.too-old.says')) };
  }
  if (asking.length === 0) return { ...over, state: 'nothing-left', ...said(...(await whoDid(journal, alarms))) };
  const { sentence, parts: cautions } = await messageAt(clock.nowMs());
  const standing = { ...shown, message: sentence, parts: cautions };
  if (!press) return { ...standing, state: 'ready', ...said(message('link.ready'), message('link.ready.says')) };
  await acknowledge(parts, asking, link);
  // Used only now: whoever is cut off in between presses once more.
  await journal.notifications.links.use(link.digest, clock.nowMs());
  return { ...standing, state: 'done', ...said(message('link.done'), message('link.done.says', { personName })) };
}

function inWords(reader: Reader, heading: Message, says: Message) {
  const say = (one: Message) => plainSpaces(render(one, reader));
  return { heading: say(heading), says: say(says), language: reader.language };
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
      note: `from ${wordsOf(link.channel)}`,
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

async function whoDid(journal: Journal, alarms: readonly AlarmRecord[]): Promise<[heading: Message, says: Message]> {
  if (alarms.some((alarm) => isSilenced(alarm) && isStanding(alarm.machine)))
    return [message('link.put-aside'), message('link.put-aside.says')];
  for (const { id, state } of alarms) {
    if (state !== 'acknowledged') continue;
    const step = (await journal.alarms.steps(id)).findLast(({ arrow }) => arrow === 'acknowledged');
    const by = { isNamed: Boolean(step?.by), personName: step?.by ?? '' };
    return [message('link.used'), message('link.acknowledged-by', by)];
  }
  return [message('link.over'), message('link.over.says')];
}
