/**
 * What becomes due by the clock alone: reminders, escalations, sites that speak again, daily summaries. It never writes the
 * same twice, however many processes look at once: a known key is left as it is.
 */
import { speaks } from '../../core/alarms/standing.ts';
import { stepEscalation } from '../../core/notify/escalation.ts';
import { reminderOf } from '../../core/notify/news.ts';
import { isQuiet, summaryDay } from '../../core/notify/wall-clock.ts';
import { isHazard, matchOf, notifyAtMs } from '../../core/notify/who.ts';
import type { Clock } from '../../shared/clock.ts';
import { verbatim } from '../../shared/messages/message.ts';
import { rankOf } from '../../shared/notifications.ts';
import type { AlarmRecord, Journal } from '../../shared/store/journal.ts';
import {
  type KeptNotice,
  type NoticeRecord,
  type NotifiedPerson,
  overEnding,
} from '../../shared/store/notifications-store.ts';
import { msPerDay, msPerMinute } from '../../shared/units.ts';
import { alarmFacts } from '../pile/alarm-notices.ts';
import type { PilePort } from '../pile/pile-port.ts';
import { notifyEventOf } from './fan-out.ts';
import { aloneEnding } from './group-silence.ts';
import type { NotifyShare, SeenPile } from './notify-share.ts';
import type { Listener, Recipients } from './people.ts';

export interface TimedParts {
  readonly journal: Journal;
  readonly clock: Clock;
  readonly people: Recipients;
  readonly watch: Pick<PilePort, 'all' | 'isSuppressed' | 'silenceOf'> | undefined;
  /** Absent where this process notifies of the whole farm. */
  readonly share?: NotifyShare | undefined;
  readonly newId: () => string;
}

type IsOurs = Awaited<ReturnType<NotifyShare['ours']>>;

/** How long after its site spoke again a probe may still be silent before people are notified. */
const aloneAfterMs = 15 * msPerMinute;

export async function timedNotices(parts: TimedParts): Promise<void> {
  const isOurs: IsOurs = (await parts.share?.ours()) ?? (() => true);
  const listeners = await parts.people.listeners();
  await aboutAlarms(parts, isOurs, listeners);
  await aboutSites(parts, isOurs);
  if (isOurs(null)) await summaries(parts, listeners);
  await measurements(parts, isOurs, listeners);
}

async function aboutAlarms(parts: TimedParts, isOurs: IsOurs, listeners: readonly Listener[]): Promise<void> {
  const { notifications, alarms } = parts.journal;
  const unanswered = (await alarms.open()).filter(({ state }) => state === 'unacknowledged');
  if (unanswered.length === 0) return;
  const ids = unanswered.map(({ id }) => id);
  const [notified, steps, escalations, piles] = await Promise.all([
    notifications.notices.notifiedOf(ids),
    notifications.escalations.steps(ids),
    notifications.escalations.list(),
    parts.journal.piles.list(),
  ]);
  for (const alarm of unanswered) {
    const ofAlarm = notified.filter(({ alarmId }) => alarmId === alarm.id);
    const newest = ofAlarm.toSorted((a, b) => b.newest.atMs - a.newest.atMs)[0]?.newest;
    if (newest === undefined) continue; // nobody was notified: it joined another, or waits to be fanned out
    const siteId = piles.find(({ id }) => id === alarm.pileId)?.siteId ?? newest.siteId;
    if (!isOurs(siteId)) continue;
    const basis = basisOf(parts, alarm, newest, siteId);
    await notifications.notices.add(remindersOf(parts, alarm, ofAlarm, listeners, basis));
    const order = escalations.find((one) => one.siteId === siteId);
    const current = steps.find(({ alarmId }) => alarmId === alarm.id);
    if (!order || !current) continue;
    const notifyEvent = notifyEventOf(basis);
    const nowMs = parts.clock.nowMs();
    const candidates = listeners
      .filter((one) => one.channels.length > 0 && matchOf(one, notifyEvent) === 'matches')
      .map((one) => ({ personId: one.personId, notifyAtMs: notifyAtMs(one, notifyEvent, nowMs) }));
    const seen = { state: alarm.state, suppressed: parts.watch?.isSuppressed(alarm.id) ?? false };
    const step = stepEscalation(current, seen, order.personIds, candidates, order.afterMin, nowMs);
    if (step.next === current) continue;
    // First the notices: whoever dies between the two finds their keys known.
    await notifications.notices.add(
      step.notified
        .filter(({ personId }) => !ofAlarm.some((one) => one.personId === personId && one.reached))
        .map(({ personId }) => ({
          ...basis,
          id: parts.newId(),
          key: `alarm/${alarm.id}/handed-on/${personId}`,
          answer: 'handed-on',
          personId,
        })),
    );
    await notifications.escalations.setStep({ alarmId: alarm.id, ...step.next });
  }
}

/** What a reminder or an escalation speaks about: the alarm as it is now, or the site that its probe fell silent with. */
function basisOf(
  { clock, newId }: TimedParts,
  alarm: AlarmRecord,
  newest: KeptNotice,
  siteId: string | null,
): NoticeRecord {
  const { state: _, joinedId: __, ...same } = newest;
  const nowMs = clock.nowMs();
  const facts = newest.about === 'site' ? newest.facts : alarmFacts(alarm);
  const rank = newest.about === 'site' ? newest.rank : rankOf(alarm.severity);
  return { ...same, id: newId(), siteId, rank, atMs: nowMs, dueMs: nowMs, facts };
}

function remindersOf(
  { clock, newId, watch }: TimedParts,
  alarm: AlarmRecord,
  notified: readonly NotifiedPerson[],
  listeners: readonly Listener[],
  basis: NoticeRecord,
): NoticeRecord[] {
  const nowMs = clock.nowMs();
  const seen = { state: alarm.state, suppressed: watch?.isSuppressed(alarm.id) ?? false };
  return listeners.flatMap(({ personId, preferences }) => {
    const before = notified.find((one) => one.personId === personId);
    if (!before?.reached || reminderOf(before, seen, preferences.remindEveryMin, nowMs) === 'nothing-new') return [];
    if (isQuiet(preferences.quiet, nowMs, preferences.timeZone) && !isHazard(alarm)) return [];
    const key = `alarm/${alarm.id}/reminder/${personId}/${before.count}`;
    return [{ ...basis, id: newId(), key, answer: 'reminder-due' as const, personId }];
  });
}

async function aboutSites({ journal, clock, watch, newId }: TimedParts, isOurs: IsOurs): Promise<void> {
  if (!watch) return;
  const nowMs = clock.nowMs();
  for (const open of await journal.notifications.notices.openSites(nowMs - 30 * msPerDay)) {
    if (open.siteId === null || !isOurs(open.siteId) || watch.silenceOf(open.siteId).answer !== 'speaks') continue;
    const { state: _, joinedId: __, ...same } = open;
    const over: NoticeRecord = {
      ...same,
      id: newId(),
      key: `${open.key}${overEnding}`,
      answer: 'cleared',
      atMs: nowMs,
      dueMs: nowMs,
    };
    const alone: NoticeRecord[] = (await journal.notifications.notices.joinedTo(open.id))
      .filter(({ answer }) => answer === 'first-raise')
      .map(({ state: ___, joinedId: ____, facts, ...joined }) => ({
        ...joined,
        id: newId(),
        key: `${joined.key}${aloneEnding}`,
        dueMs: nowMs + aloneAfterMs,
        facts: { ...facts, site: undefined },
      }));
    await journal.notifications.notices.add([over, ...alone]);
  }
}

async function summaries(
  { journal, clock, watch, share, newId }: TimedParts,
  listeners: readonly Listener[],
): Promise<void> {
  const nowMs = clock.nowMs();
  let everyPile: readonly SeenPile[] | undefined;
  for (const { personId, preferences, channels } of listeners) {
    const day = summaryDay(preferences.summaryAtMin, preferences.timeZone, nowMs);
    if (channels.length === 0 || !watch || day === undefined) continue;
    const key = `summary/${personId}/${day}`;
    if (await journal.notifications.notices.byKey(key)) continue;
    const sites = await journal.sites.list();
    everyPile ??= (await share?.everyPile()) ?? watch.all();
    const piles = everyPile
      .filter(
        ({ batch, pile }) => batch !== null && (preferences.sites === null || preferences.sites.includes(pile.siteId)),
      )
      .map((one) => {
        const { name, site, condition, next, messages, alarms } = one.summary();
        return {
          name,
          siteName: sites.find(({ id }) => id === site)?.name ?? site,
          condition: messages?.condition ?? verbatim(condition),
          next: messages?.next ?? verbatim(next),
          warnings: alarms.filter(speaks).length,
        };
      });
    await journal.notifications.notices.add([
      {
        id: newId(),
        key,
        about: 'person',
        answer: 'summary',
        rank: 0,
        siteId: null,
        pileId: null,
        alarmId: null,
        personId,
        atMs: nowMs,
        dueMs: nowMs,
        facts: { piles },
      },
    ]);
  }
}

/**
 * Once for each time that a pile is due to be measured by hand, to whoever wants that; in their quiet hours nobody is, and after
 * them whatever is still due. Of a probe that is lost a warning tells already.
 */
async function measurements(
  { journal, clock, watch, newId }: TimedParts,
  isOurs: IsOurs,
  listeners: readonly Listener[],
): Promise<void> {
  const nowMs = clock.nowMs();
  const wanting = listeners.filter(
    ({ preferences, channels }) =>
      preferences.measureReminders && channels.length > 0 && !isQuiet(preferences.quiet, nowMs, preferences.timeZone),
  );
  if (!watch || wanting.length === 0) return;
  for (const one of watch.all()) {
    if (!isOurs(one.pile.siteId)) continue;
    const { measureNext } = one.summary();
    const { batch, pile } = one;
    if (batch === null || !measureNext || measureNext.reason === 'probe-lost') continue;
    const dueMs = Date.parse(measureNext.at);
    if (dueMs > nowMs) continue;
    // What nobody has measured yet is due at every moment.
    const when = measureNext.reason === 'never-measured' ? batch.id : String(dueMs);
    const notices = wanting
      .filter(({ preferences }) => preferences.sites === null || preferences.sites.includes(pile.siteId))
      .map(
        ({ personId }): NoticeRecord => ({
          id: newId(),
          key: `measure/${pile.id}/${when}/${personId}`,
          about: 'person',
          answer: 'measure-due',
          rank: 0,
          siteId: pile.siteId,
          pileId: pile.id,
          alarmId: null,
          personId,
          atMs: nowMs,
          dueMs: nowMs,
          facts: { due: measureNext.messages.says },
        }),
      );
    await journal.notifications.notices.add(notices);
  }
}
