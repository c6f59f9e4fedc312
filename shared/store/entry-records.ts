/** What people wrote down of piles, with their photos. */
import type { Act } from '../contracts/domain/batch.ts';
import type { EntryFacts, EntryKind } from '../entry.ts';

export interface ActRecord extends Act {
  readonly id: string;
  readonly pileId: string;
  readonly note: string | null;
}

/** One version of an entry; the entry is known by `entryId`, the id of its first version. */
export interface EntryRecord {
  readonly id: string;
  readonly entryId: string;
  readonly version: number;
  readonly pileId: string;
  readonly atMs: number;
  readonly recordedAtMs: number;
  readonly by: string | null;
  readonly note: string | null;
  readonly photoIds: readonly string[];
  readonly what: EntryFacts;
  /** Why it took the place of the version before. */
  readonly reason: string | null;
  /** Struck out. */
  readonly withdrawn: boolean;
}

export interface EntriesQuestion {
  readonly pileId?: string;
  readonly fromMs?: number;
  /** Excluded. */
  readonly toMs?: number;
  /** What names a batch is listed where it names this one, whatever its time. */
  readonly batchId?: string;
  readonly kinds?: readonly EntryKind[];
  /** Struck-out ones too. */
  readonly withdrawn?: boolean;
  readonly limit: number;
  /** The last entry of the page before. */
  readonly after?: Pick<EntryRecord, 'atMs' | 'entryId'>;
}

/** `known`: it was there before, with the same content. */
export type Kept = 'kept' | 'known';

export interface PhotoRecord {
  readonly id: string;
  /** SHA-256 of the file as it was sent. */
  readonly digest: string;
  readonly width: number;
  readonly height: number;
  readonly bytes: number;
  readonly keptAtMs: number;
}

export type PictureSize = 'whole' | 'small';
