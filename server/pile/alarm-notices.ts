/** What a change of alarms gives people to hear, as notices for the outbox. */
import type { NoticeSources } from '../../core/notify/alarm-content.ts';
import { newsOf } from '../../core/notify/news.ts';
import type { SiteNoticeSources } from '../../core/notify/other-contents.ts';
import type { SiteSilence } from '../../core/notify/site-silence.ts';
import { rankOf } from '../../shared/notifications.ts';
import type { AlarmRecord, PileRecord, WatchChange } from '../../shared/store/journal.ts';
import type { NoticeRecord } from '../../shared/store/notifications-store.ts';

/** How a site stands, with what a message about it says. */
export interface SiteSilenceSeen extends SiteSilence {
  readonly probeCount: number;
  readonly pileNames: readonly string[];
}

export interface NoticeContext {
  readonly isSuppressed: (alarmId: string) => boolean;
  readonly silence: () => SiteSilenceSeen;
  readonly newId: () => string;
}

/** Facts of an alarm, and of its whole site where that fell silent as a whole. */
interface AlarmNoticeFacts extends NoticeSources {
  readonly site?: SiteNoticeSources;
}

export function alarmNotices(
  change: Pick<WatchChange, 'alarms' | 'steps'>,
  pile: PileRecord,
  { isSuppressed, silence, newId }: NoticeContext,
): NoticeRecord[] {
  return change.steps.flatMap((step) => {
    const answer = newsOf(step, isSuppressed(step.alarmId));
    // Two steps of one alarm in one look leave one record, its newest.
    const alarm = change.alarms.findLast(({ id }) => id === step.alarmId);
    if (answer === 'nothing-new' || alarm === undefined) return [];
    return [
      {
        id: newId(),
        key: `alarm/${alarm.id}/${step.atMs}/${step.arrow}`,
        about: 'alarm' as const,
        answer,
        rank: rankOf(alarm.severity),
        siteId: pile.siteId,
        pileId: pile.id,
        alarmId: alarm.id,
        personId: null,
        atMs: step.atMs,
        dueMs: step.atMs,
        facts: {
          ...alarmFacts(alarm),
          ...(alarm.kind === 'probe-silent' && answer === 'first-raise' ? siteFacts(silence()) : {}),
        } satisfies AlarmNoticeFacts,
      },
    ];
  });
}

export function alarmFacts(alarm: AlarmRecord): NoticeSources {
  const { words } = alarm;
  return {
    kind: alarm.kind,
    position: alarm.position,
    severity: alarm.severity,
    seen: words.seen,
    todo: words.todo,
    byMs: words.byMs,
    caution: words.caution,
    raisedAtMs: alarm.raisedAtMs,
    ...(words.noted && { noted: words.noted }),
  };
}

function siteFacts({ answer, sinceMs, probeCount, pileNames }: SiteSilenceSeen): Pick<AlarmNoticeFacts, 'site'> {
  return answer === 'silent' ? { site: { sinceMs, probeCount, pileNames } } : {};
}
