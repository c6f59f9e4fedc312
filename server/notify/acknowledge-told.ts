/**
 * server/notify/acknowledge-told.ts: acknowledging from a message, by the secret of its link.
 *
 * Takes:  the secret, and whether a person pressed the button.
 * Gives:  what the link stands for now, in words for the page that opens.
 */
import { clockWords } from '../../core/notify/letter.ts';
import type { Clock } from '../../shared/clock.ts';
import type { AlarmRecord, Journal } from '../../shared/store/journal.ts';
import type { KeptNotice, ToldLink } from '../../shared/store/telling-store.ts';
import type { WatchDoor } from '../watch/watch-door.ts';
import { letterOf } from './letters.ts';
import type { TellingPeople } from './people.ts';
import { digestOf } from './told-links.ts';

export interface ToldParts {
  readonly journal: Journal;
  readonly clock: Clock;
  readonly people: TellingPeople;
  readonly watch: Pick<WatchDoor, 'handleAlarm'>;
}

export interface ToldAnswer {
  /** `ready`: the button may be pressed. `done`: it was, just now. */
  readonly state: 'ready' | 'done' | 'nothing-left' | 'used' | 'too-old' | 'unknown';
  /** What the message said. */
  readonly told: string | null;
  readonly says: string;
  readonly pileId: string | null;
}

const wayWords = { email: 'the e-mail', push: 'the notification', webhook: 'the webhook' } as const;

export async function answerTold(parts: ToldParts, secret: string, press: boolean): Promise<ToldAnswer> {
  const { journal, clock, people } = parts;
  const link = await journal.telling.links.get(digestOf(secret));
  const notice = link && (await journal.telling.notices.get(link.noticeId));
  if (!link || !notice)
    return { state: 'unknown', told: null, says: 'This link is not known here, or is long over.', pileId: null };
  const reader = await people.wishesOf(link.personId);
  const { sentence } = await letterOf({ journal, clock, publicUrl: undefined }, notice, link.personName, reader);
  const about = { told: sentence, pileId: notice.pileId };
  const alarms = await alarmsOf(journal, notice);
  const asking = alarms.filter(({ state }) => state === 'unacknowledged' || state === 'returned-unacknowledged');
  if (link.usedAtMs !== null) {
    const when = clockWords(link.usedAtMs, clock.nowMs(), reader.timeZone);
    return { ...about, state: 'used', says: `${link.personName} acknowledged it at ${when}, with this link.` };
  }
  if (link.expiresAtMs <= clock.nowMs()) {
    return { ...about, state: 'too-old', says: 'This link is too old. Open the pile to see how it stands now.' };
  }
  if (asking.length === 0) return { ...about, state: 'nothing-left', says: await whoDid(journal, alarms) };
  if (!press)
    return {
      ...about,
      state: 'ready',
      says: 'Acknowledging stops the reminders and tells the others that you are on it.',
    };
  await acknowledge(parts, asking, link);
  // Used only now: whoever is cut off in between presses once more.
  await journal.telling.links.use(link.digest, clock.nowMs());
  return {
    ...about,
    state: 'done',
    says: `Acknowledged by ${link.personName}. The reminders stop; the others can see that you are on it.`,
  };
}

async function acknowledge({ watch }: ToldParts, alarms: readonly AlarmRecord[], link: ToldLink): Promise<void> {
  for (const { id } of alarms) {
    await watch.handleAlarm(id, { kind: 'acknowledge', by: link.personName, note: `from ${wayWords[link.way]}` });
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
  const ofAlarm = notice.alarmId === null ? [] : await journal.telling.notices.ofAlarm(notice.alarmId);
  const firsts = ofAlarm.filter(({ about, answer }) => about === 'site' && answer === 'first-raise');
  const joined = await Promise.all(firsts.map(({ id }) => journal.telling.notices.joinedTo(id)));
  return joined.flat().flatMap(({ alarmId }) => alarmId ?? []);
}

async function whoDid(journal: Journal, alarms: readonly AlarmRecord[]): Promise<string> {
  for (const { id, state } of alarms) {
    if (state !== 'acknowledged') continue;
    const step = (await journal.alarms.steps(id)).findLast(({ arrow }) => arrow === 'acknowledged');
    return step?.by ? `${step.by} has acknowledged it already.` : 'It has been acknowledged already.';
  }
  return 'It is over: there is nothing left to acknowledge.';
}
