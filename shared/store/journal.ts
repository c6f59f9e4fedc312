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
import type { Act, GivenRecipe } from '../contracts/domain/batch.ts';
import type { MappingInput } from '../contracts/ingest.ts';
import type { Ending, FlowWay, LineageKind, Use } from '../contracts/lineage.ts';
import type { LotFacts } from '../contracts/lots.ts';
import type { PileSummary } from '../contracts/piles.ts';
import type { Site } from '../contracts/sites.ts';
import type { EntryFacts, EntryKind } from '../entry.ts';
import type { Position, Stage } from '../names.ts';
import type { Ask } from '../pile-ask.ts';
import type { KnownKey } from '../probe-key.ts';
import type { StageLimits } from '../stage.ts';
import type { NoticeRecord, NotificationsStore } from './notifications-store.ts';
import type { PeopleJournal } from './people-journal.ts';
import type { UnreadableRows } from './unreadable.ts';

export type { AlarmRecord, AlarmStepRecord } from '../alarm-record.ts';

export interface PileRecord {
  readonly id: string;
  readonly siteId: string;
  readonly name: string;
  readonly createdAtMs: number;
}

export interface BatchRecord {
  readonly id: string;
  readonly pileId: string;
  readonly stage: Stage;
  readonly startedAtMs: number;
  readonly endedAtMs: number | null;
  readonly outcome: string | null;
  /** As given: what nobody said is absent. */
  readonly recipe: GivenRecipe;
  /** Only what departs from the stage's limits. */
  readonly limits: Partial<StageLimits>;
}

export interface ClaimRecord {
  readonly site: string;
  readonly probe: string;
  readonly pileId: string;
  readonly position: Position;
  readonly fromMs: number;
  readonly toMs: number | null;
}

export interface ProbeRecord {
  readonly site: string;
  readonly probe: string;
  readonly online: boolean | null;
  readonly onlineAtMs: number | null;
  readonly temperatureOffsetC: number;
}

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

export interface LotRecord {
  readonly id: string;
  readonly name: string;
  readonly createdAtMs: number;
  readonly storage: string | null;
  readonly massKg: number | null;
  readonly volumeL: number | null;
  readonly note: string | null;
  readonly usedUp: boolean;
  readonly facts: LotFacts;
}

/** What a batch is called, and how it ended where that was not by being finished. */
export interface BatchStoryRecord {
  readonly batchId: string;
  readonly name: string | null;
  readonly ending: Ending | null;
  readonly reason: string | null;
}

export interface UseRecord {
  readonly id: string;
  readonly batchId: string;
  readonly target: Use['target'];
  readonly place: string;
  readonly atMs: number;
  readonly massKg: number | null;
  readonly volumeL: number | null;
  readonly areaM2: number | null;
  readonly by: string | null;
  readonly note: string | null;
}

export interface LineageRef {
  readonly kind: LineageKind;
  readonly id: string;
}

export interface FlowRecord {
  readonly id: string;
  readonly from: LineageRef;
  readonly to: LineageRef;
  readonly way: FlowWay;
  readonly atMs: number;
  readonly massKg: number | null;
  readonly volumeL: number | null;
  readonly withdrawnAtMs: number | null;
}

/** Everything one step in the life of batches changes, kept in one transaction. */
export interface LineageChange {
  readonly ended?: readonly { batchId: string; atMs: number; ending: Ending; reason: string | null }[];
  readonly piles?: readonly PileRecord[];
  readonly batches?: readonly BatchRecord[];
  readonly names?: readonly Pick<BatchStoryRecord, 'batchId' | 'name'>[];
  readonly lots?: readonly LotRecord[];
  readonly uses?: readonly UseRecord[];
  readonly flows?: readonly FlowRecord[];
}

/** Air that somebody foretold for a site, oldest point first. */
export interface AirAheadRecord {
  readonly siteId: string;
  readonly source: string;
  readonly issuedMs: number;
  readonly receivedMs: number;
  readonly points: readonly { readonly atMs: number; readonly tempC: number; readonly humidityPct: number | null }[];
}

/** A key of the broker with what it reaches; of its secret only hashes are kept. */
export interface ProbeKeyRecord extends KnownKey {
  readonly name: string;
  /** The same secret as Mosquitto's password file wants it. */
  readonly mosquittoHash: string;
  readonly madeAtMs: number;
  readonly madeBy: string | null;
  readonly revokedAtMs: number | null;
  readonly revokedBy: string | null;
}

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
  readonly ask: Ask | null;
  readonly askedMs: number;
}

/** Something changed: which table ("changed"), which piles ("views"), which ask was made or answered; or news was missed. */
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
    look(): Promise<LeaseTable>;
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
  readonly asks: {
    add(ask: PileCommandRecord): Promise<void>;
    /** What is still to be done at these sites, in the order asked. */
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
    list(): Promise<(MappingInput & { id: string })[]>;
    add(mapping: MappingInput & { id: string }): Promise<void>;
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
  };
  /** Rows met so far that cannot be read; lists leave them out. */
  readonly unreadable: UnreadableRows;
  /** Reads every row, so that all that cannot be read are met. @param rest Called between pages; false ends it. */
  examine(rest: () => Promise<boolean>): Promise<void>;
  check(): Promise<void>;
  close(): Promise<void>;
}
