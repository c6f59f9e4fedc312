/** What routes and messages ask of whoever watches the piles: this process, or workers elsewhere. */

import type { AlarmHandling } from '../../core/session/alarm-registry.ts';
import type { SiteSilenceSeen } from './alarm-notices.ts';
import type { TroubleSeen } from './trouble-seen.ts';
import type { WatchedPile } from './watched-pile.ts';

/** A pile that is not judged as it should be, or whose changes are not kept. */
export interface TroubledPile extends TroubleSeen {
  readonly pileId: string;
  readonly name: string;
}

export interface PilePort {
  all(): readonly WatchedPile[];
  get(pileId: string): WatchedPile | undefined;
  /** Its claims, acts, batch or name changed: the pile is read and judged anew. @returns undefined when it is gone. */
  reload(pileId: string): Promise<WatchedPile | undefined>;
  /** Readings of these probes were brought in by this process, perhaps long after their time. */
  broughtIn(probes: Iterable<{ readonly site: string; readonly probe: string }>): Promise<void>;
  /** @returns false when no such alarm is open. */
  handleAlarm(alarmId: string, handling: AlarmHandling): Promise<boolean>;
  /** Ends every alarm of a pile whose batch is finished. */
  closeAlarms(pileId: string): Promise<void>;
  troubles(): readonly TroubledPile[];
  /** Whether another warning explains this one just now. */
  isSuppressed(alarmId: string): boolean;
  /** Whether everything at a site has fallen silent. */
  silenceOf(siteId: string): Pick<SiteSilenceSeen, 'answer'>;
  close(): Promise<void>;
}
