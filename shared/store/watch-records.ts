/** Where watching a pile stopped, who watches, and what was seen and asked. */
import type { AlarmRecord, AlarmStepRecord } from '../alarm-record.ts';
import type { PileSummary } from '../contracts/piles.ts';
import type { PileCommand } from '../pile-command.ts';
import type { NoticeRecord } from './notifications-store.ts';

export interface CheckpointRecord {
  readonly pileId: string;
  readonly batchId: string;
  /** The newest reading time that the state below has seen. */
  readonly throughMs: number;
  /** The judge as last left: plain data, given back as it was handed in or not at all. */
  readonly state: unknown;
}

/** The right to watch a site; its number is one more each time the site changes hands. */
export interface Lease {
  readonly site: string;
  readonly holder: string;
  readonly fence: number;
}

export interface LeaseRecord {
  readonly site: string;
  readonly holder: string | null;
  readonly fence: number;
  readonly untilMs: number;
  /** Whether all that is published at the site reaches the site's own session at the broker. */
  readonly heard: boolean;
}

/** All leases and the workers alive, at one moment of the database's clock. */
export interface LeaseTable {
  readonly nowMs: number;
  readonly leases: readonly LeaseRecord[];
  readonly workers: readonly WorkerRecord[];
}

export interface WorkerRecord {
  readonly id: string;
  /** How many sites it said it holds; null when it did not say. */
  readonly siteCount: number | null;
}

/** A pile as its watcher last saw it. */
export interface PileViewRecord {
  readonly pileId: string;
  readonly changedMs: number;
  /** Null: it cannot be read; its watcher will write it anew. */
  readonly summary: PileSummary | null;
}

/** Plain data; its assessment comes back as it was handed in, or not at all. */
export interface PileViewChange {
  readonly pileId: string;
  readonly summary: PileSummary;
  /** The assessment. */
  readonly assessment: unknown;
  /** The expected band; absent where it is as it was. */
  readonly band?: unknown;
}

/** What somebody asks of whoever watches a pile. */
export interface PileCommandRecord {
  readonly id: string;
  readonly site: string;
  readonly pileId: string;
  /** Null: it cannot be read. */
  readonly command: PileCommand | null;
  readonly askedMs: number;
}

/** Something changed: which table ("changed"), which piles ("views"), which command was given or answered; or news was missed. */
export interface JournalNews {
  readonly topic: string;
  readonly about: string;
}

/** What one look at a pile changed; kept in one transaction, so a restart raises nothing twice. */
export interface WatchChange {
  readonly alarms: readonly AlarmRecord[];
  readonly steps: readonly AlarmStepRecord[];
  readonly watch: CheckpointRecord | null;
  /** Where several processes watch: refused unless it still holds. */
  readonly lease?: Lease | undefined;
  /** What there is to tell people about it: kept with the alarms, so that no crash comes between. */
  readonly notices?: readonly NoticeRecord[];
}
