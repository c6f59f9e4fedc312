/**
 * Who is notified of something, by their own preferences, and when. It never lets a preference silence the self-heating hazard: people
 * may be hurt.
 */
import { type Preferences, rankOf } from '../../shared/notifications.ts';
import type { WarningKind } from '../../shared/warning.ts';
import { quietEndsMs } from './wall-clock.ts';

export type Match = 'matches' | 'not-this-kind' | 'below-their-severity' | 'not-their-site' | 'not-asked-for';

/** What there is to tell, as far as preferences go; `kind` is null for what is no alarm of a pile. */
export interface NotifyEvent {
  readonly about: 'alarm' | 'site' | 'server' | 'person';
  readonly kind: WarningKind | null;
  readonly rank: number;
  readonly siteId: string | null;
}

export interface Recipient {
  readonly personId: string;
  readonly isOwner: boolean;
  readonly preferences: Preferences;
}

export function isHazard({ kind }: Pick<NotifyEvent, 'kind'>): boolean {
  return kind === 'self-heating';
}

export function matchOf({ isOwner, preferences }: Recipient, notifyEvent: NotifyEvent): Match {
  if (notifyEvent.about === 'person') return 'matches'; // it was asked for by name
  if (notifyEvent.about === 'server') return (preferences.installationTrouble ?? isOwner) ? 'matches' : 'not-asked-for';
  if (notifyEvent.siteId !== null && preferences.sites !== null && !preferences.sites.includes(notifyEvent.siteId))
    return 'not-their-site';
  if (isHazard(notifyEvent)) return 'matches';
  if (notifyEvent.kind !== null && preferences.withoutKinds.includes(notifyEvent.kind)) return 'not-this-kind';
  return notifyEvent.rank >= rankOf(preferences.fromSeverity) ? 'matches' : 'below-their-severity';
}

/** When a person may be notified: now, or once their quiet hours are over. */
export function notifyAtMs({ preferences }: Recipient, notifyEvent: NotifyEvent, nowMs: number): number {
  if (isHazard(notifyEvent)) return nowMs;
  return quietEndsMs(preferences.quiet, nowMs, preferences.timeZone);
}
