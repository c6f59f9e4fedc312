/**
 * core/notify/who.ts: who is told of something, by their own wishes, and when.
 *
 * Takes:  what there is to tell, a person's wishes, the time now.
 * Gives:  a named answer per person, and the time before which they are not disturbed.
 * Never:  lets a wish silence the self-heating hazard: people may be hurt.
 */
import { rankOf, type Wishes } from '../../shared/notifications.ts';
import type { WarningKind } from '../../shared/warning.ts';
import { quietEndsMs } from './wall-clock.ts';

export type Heed = 'heeds' | 'not-this-kind' | 'below-their-severity' | 'not-their-site' | 'not-asked-for';

/** What there is to tell, as far as wishes go; `kind` is null for what is no alarm of a pile. */
export interface Tidings {
  readonly about: 'alarm' | 'site' | 'house' | 'person';
  readonly kind: WarningKind | null;
  readonly rank: number;
  readonly siteId: string | null;
}

export interface Hearer {
  readonly personId: string;
  readonly isOwner: boolean;
  readonly wishes: Wishes;
}

export function isHazard({ kind }: Pick<Tidings, 'kind'>): boolean {
  return kind === 'self-heating';
}

export function heedOf({ isOwner, wishes }: Hearer, tidings: Tidings): Heed {
  if (tidings.about === 'person') return 'heeds'; // it was asked for by name
  if (tidings.about === 'house') return (wishes.houseTrouble ?? isOwner) ? 'heeds' : 'not-asked-for';
  if (tidings.siteId !== null && wishes.sites !== null && !wishes.sites.includes(tidings.siteId))
    return 'not-their-site';
  if (isHazard(tidings)) return 'heeds';
  if (tidings.kind !== null && wishes.withoutKinds.includes(tidings.kind)) return 'not-this-kind';
  return tidings.rank >= rankOf(wishes.fromSeverity) ? 'heeds' : 'below-their-severity';
}

/** When a person may be told: now, or once their quiet hours are over. */
export function tellAtMs({ wishes }: Hearer, tidings: Tidings, nowMs: number): number {
  if (isHazard(tidings)) return nowMs;
  return quietEndsMs(wishes.quiet, nowMs, wishes.timeZone);
}
