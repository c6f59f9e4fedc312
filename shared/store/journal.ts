/**
 * The repository of everything kept that is not a reading: people (people-journal.ts), sites, piles, batches, claims, entries
 * (acts among them), photos, lots and lineage, alarms and their steps, mappings of foreign topics, and where each
 * pile's watcher stopped.
 *
 * One implementation through Kysely serves SQLite and PostgreSQL. Times are epoch ms. Ids are
 * lower-case strings. Every method resolves after its transaction is durable.
 */
import type { z } from 'zod';
import type { AlarmRecord, AlarmStepRecord } from '../alarm-record.ts';
import type { Mapping } from '../contracts/mappings.ts';
import type { Site } from '../contracts/sites.ts';
import type { ActRecord, EntriesQuestion, EntryRecord, Kept, PhotoRecord, PictureSize } from './entry-records.ts';
import type { BatchStoryRecord, FlowRecord, LineageChange, LotRecord, UseRecord } from './lineage-records.ts';
import type { NotificationsStore } from './notifications-store.ts';
import type { PeopleJournal } from './people-journal.ts';
import type {
  AirAheadRecord,
  BatchRecord,
  ClaimRecord,
  PileRecord,
  ProbeKeyRecord,
  ProbeRecord,
} from './pile-records.ts';
import type { UnreadableRows } from './unreadable.ts';
import type {
  CheckpointRecord,
  JournalNews,
  Lease,
  LeaseTable,
  PileCommandRecord,
  PileViewChange,
  PileViewRecord,
  WatchChange,
} from './watch-records.ts';

export type { AlarmRecord, AlarmStepRecord } from '../alarm-record.ts';
export type * from './entry-records.ts';
export type * from './lineage-records.ts';
export type * from './pile-records.ts';
export type * from './watch-records.ts';

export interface Journal extends PeopleJournal {
  readonly sites: {
    list(): Promise<Site[]>;
    /** @throws {ConflictError} when the id is taken. */
    add(site: Site): Promise<void>;
  };
  readonly piles: {
    list(): Promise<PileRecord[]>;
    get(id: string): Promise<PileRecord | undefined>;
    /** Adds a pile with its first batch. @throws {ConflictError} when the id is taken or the site unknown. */
    add(pile: PileRecord, batch: BatchRecord): Promise<void>;
    rename(id: string, name: string): Promise<void>;
    /** Removes an empty mistake: refused with a ConflictError once acts or alarms hang on it. */
    remove(id: string): Promise<void>;
  };
  readonly batches: {
    list(pileId?: string): Promise<BatchRecord[]>;
    /** The batch that lies there now. */
    open(pileId: string): Promise<BatchRecord | undefined>;
    /** @throws {ConflictError} while another batch lies there. */
    add(batch: BatchRecord): Promise<void>;
    change(id: string, change: Partial<Pick<BatchRecord, 'recipe' | 'limits' | 'startedAtMs'>>): Promise<void>;
    finish(id: string, endedAtMs: number, outcome: string | null): Promise<void>;
  };
  readonly probes: {
    list(): Promise<ProbeRecord[]>;
    setOnline(site: string, probe: string, online: boolean, atMs: number): Promise<void>;
    setTemperatureOffset(site: string, probe: string, offsetC: number): Promise<void>;
    /** Forgets status and offset; claims stay as they are. */
    remove(probes: readonly { readonly site: string; readonly probe: string }[]): Promise<void>;
  };
  readonly claims: {
    /** All, or those of one site's probes and of its piles; ended ones included, oldest first. */
    list(site?: string): Promise<ClaimRecord[]>;
    /**
     * Gives a probe to a pile's position from `fromMs` on, ending its earlier claim there and then.
     * @throws {ConflictError} when another probe holds that position, or the pile is unknown.
     */
    claim(claim: Omit<ClaimRecord, 'toMs'>): Promise<void>;
    release(site: string, probe: string, atMs: number): Promise<void>;
  };
  readonly acts: {
    list(pileId: string, fromMs?: number): Promise<ActRecord[]>;
    add(act: ActRecord): Promise<void>;
  };
  readonly entries: {
    /** As they stand now, newest first. */
    list(question: EntriesQuestion): Promise<EntryRecord[]>;
    /** Every version, oldest first; empty when there is no such entry. */
    versions(entryId: string): Promise<EntryRecord[]>;
    /** Of all piles, what was said before the newest version, by entry and version. */
    earlier(): Promise<EntryRecord[]>;
    /**
     * Keeps an entry under the id its client chose; the same content again is `known` and changes nothing.
     * @throws {ConflictError} when the id is known with other content, or pile or photos are not.
     */
    add(entry: EntryRecord): Promise<Kept>;
    /**
     * Keeps the next version of an entry; `version` is set here.
     * @throws {ConflictError} when `replaces` is not the newest version.
     */
    correct(entry: EntryRecord, replaces: string): Promise<Kept>;
  };
  readonly photos: {
    get(id: string): Promise<PhotoRecord | undefined>;
    /** @throws {ConflictError} when the id is known with another file. */
    add(photo: PhotoRecord): Promise<Kept>;
    /**
     * Forgets at most `limit` photos kept before this time that no version of any entry names.
     * @returns the digests that no photo has any more.
     */
    forgetUnnamed(keptBeforeMs: number, limit: number): Promise<string[]>;
  };
  /** The pictures themselves, where several processes share the journal. */
  readonly pictures: {
    keep(digest: string, pictures: Readonly<Record<PictureSize, Uint8Array>>): Promise<void>;
    read(digest: string, size: PictureSize): Promise<Uint8Array | undefined>;
  };
  readonly lots: {
    /** Oldest first. */
    list(): Promise<LotRecord[]>;
    get(id: string): Promise<LotRecord | undefined>;
    /** Replaces everything but its id and time. */
    change(lot: LotRecord): Promise<void>;
  };
  readonly lineage: {
    /** Oldest first, those taken back included. */
    flows(): Promise<FlowRecord[]>;
    uses(batchId?: string): Promise<UseRecord[]>;
    stories(): Promise<BatchStoryRecord[]>;
    /**
     * Keeps a whole change or nothing of it.
     * @param guard hears every flow that will stand, the new ones last, and throws when they may not stand together.
     * @throws {ConflictError} when an end is missing, a batch was abandoned, or a pile is not free.
     */
    keep(change: LineageChange, guard: (flows: readonly FlowRecord[]) => void): Promise<void>;
    rename(batchId: string, name: string | null): Promise<void>;
    setOutcome(batchId: string, outcome: string | null): Promise<void>;
    /** @returns false when there is no such flow, or it was taken back before. */
    withdraw(flowId: string, atMs: number): Promise<boolean>;
  };
  readonly alarms: {
    /** Not closed; of one pile, or of all. */
    open(pileId?: string): Promise<AlarmRecord[]>;
    get(id: string): Promise<AlarmRecord | undefined>;
    forPile(pileId: string, limit: number): Promise<AlarmRecord[]>;
    steps(alarmId: string): Promise<AlarmStepRecord[]>;
  };
  readonly watch: {
    /** undefined too where what was kept is not whole: it is a cache, and is then made anew. */
    get(pileId: string): Promise<CheckpointRecord | undefined>;
    /** Everything one look changed, in one transaction. @throws {LostLeaseError} when the site is another's by now. */
    keep(change: WatchChange): Promise<void>;
    forget(pileId: string): Promise<void>;
  };
  readonly leases: {
    /** Says that a worker is alive, prolongs what it holds, and tells how everything stands. */
    beat(worker: string, forMs: number, state: { readonly sites?: number }): Promise<LeaseTable>;
    table(): Promise<LeaseTable>;
    /** Makes sites that somebody must watch known. */
    know(sites: readonly string[]): Promise<void>;
    /** @returns undefined when another worker holds it. */
    take(site: string, worker: string, forMs: number): Promise<Lease | undefined>;
    /** Only if it still holds. */
    release(lease: Lease): Promise<void>;
    /** @returns false when the lease is lost. */
    setHeard(lease: Lease, heard: boolean): Promise<boolean>;
    /** The worker ends: all it holds is free at once. */
    leave(worker: string): Promise<void>;
  };
  readonly views: {
    /** @throws {LostLeaseError} */
    keep(lease: Lease, views: readonly PileViewChange[]): Promise<void>;
    /** All, or those named. */
    list(pileIds?: readonly string[]): Promise<PileViewRecord[]>;
    /** Each null where it is not whole: it is a cache, and comes anew from whoever watches. */
    judged(pileId: string): Promise<{ assessment: unknown; band: unknown } | undefined>;
    forget(pileId: string): Promise<void>;
  };
  readonly commands: {
    add(command: PileCommandRecord): Promise<void>;
    /** What is still to be done at these sites, in the order given. */
    waiting(sites: readonly string[]): Promise<PileCommandRecord[]>;
    answer(id: string, answer: boolean): Promise<void>;
    /** undefined while it waits. */
    answerTo(id: string): Promise<boolean | undefined>;
    /** @returns false when it was done already. */
    withdraw(id: string): Promise<boolean>;
    /** Forgets what was done that long ago. */
    clear(doneForMs: number): Promise<void>;
  };
  /** Calls back on every change that another process (or this one) made, until closed. */
  hear(heard: (news: JournalNews) => void): { close(): Promise<void> };
  readonly notifications: NotificationsStore;
  readonly mappings: {
    list(): Promise<Mapping[]>;
    add(mapping: Mapping): Promise<void>;
    /** @returns false when there is none of that id. */
    replace(mapping: Mapping): Promise<boolean>;
    remove(id: string): Promise<boolean>;
  };
  readonly airAhead: {
    /** The newest issue of a site, with what earlier ones said of hours that have gone by; undefined too where it cannot be read. */
    get(siteId: string): Promise<AirAheadRecord | undefined>;
    /**
     * `known`: an issue as late was there already, and stays.
     * @throws {ConflictError} when the site is unknown.
     */
    keep(ahead: AirAheadRecord): Promise<Kept>;
  };
  readonly probeKeys: {
    /** Oldest first, revoked ones too. */
    list(): Promise<ProbeKeyRecord[]>;
    /** @throws {ConflictError} when the id is taken. */
    add(key: ProbeKeyRecord): Promise<void>;
    /** @returns false when there is no such key, or it was revoked before. */
    revoke(id: string, atMs: number, by: string | null): Promise<boolean>;
  };
  readonly settings: {
    get(key: string): Promise<string | undefined>;
    set(key: string, value: string): Promise<void>;
    /** A value kept as JSON. @throws {UnreadableRowError} when it is not what the schema says. */
    read<T>(key: string, schema: z.ZodType<T>): Promise<T | undefined>;
    write(key: string, value: unknown): Promise<void>;
    /** All that is kept as JSON under keys that begin so; what cannot be read is noted and left out. */
    readUnder<T>(start: string, schema: z.ZodType<T>): Promise<{ key: string; value: T }[]>;
    remove(key: string): Promise<void>;
  };
  /** Rows met so far that cannot be read; lists leave them out. */
  readonly unreadable: UnreadableRows;
  /** Reads every row, so that all that cannot be read are met. @param rest Called between pages; false ends it. */
  examine(rest: () => Promise<boolean>): Promise<void>;
  check(): Promise<void>;
  close(): Promise<void>;
}
