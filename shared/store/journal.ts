/**
 * shared/store/journal.ts: the door to everything kept that is not a reading: sites, piles, batches, claims,
 * acts, alarms and their steps, mappings of foreign topics, and where each pile's watcher stopped.
 *
 * One implementation through Kysely serves SQLite now and PostgreSQL later; see journal-kysely.ts.
 * Times are epoch ms. Ids are lower-case strings. Every method resolves after its transaction is durable.
 */
import type { MappingInput } from '../api/ingest.ts';
import type { Site } from '../api/sites.ts';
import type { Act, Recipe } from '../batch.ts';
import type { Position, Stage } from '../names.ts';
import type { StageLimits } from '../stage.ts';
import type { AlarmState, Severity, WarningKind } from '../warning.ts';

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
  readonly recipe: Recipe;
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

/** One alarm, from being raised until it is normal again; identity while open is pile + position + kind. */
export interface AlarmRecord {
  readonly id: string;
  readonly pileId: string;
  readonly kind: WarningKind;
  readonly position: Position | null;
  readonly severity: Severity;
  readonly state: AlarmState;
  readonly raisedAtMs: number;
  readonly changedAtMs: number;
  readonly closedAtMs: number | null;
  /** The state machine as last left, JSON. */
  readonly machine: string;
  /** Words of the moment it was raised or last grew worse, JSON (seen, todo, byMs, caution). */
  readonly words: string;
}

export interface AlarmStepRecord {
  readonly alarmId: string;
  readonly atMs: number;
  readonly from: AlarmState;
  readonly to: AlarmState;
  readonly arrow: string;
  readonly by: string | null;
  readonly note: string | null;
}

export interface WatchRecord {
  readonly pileId: string;
  readonly batchId: string;
  /** The newest reading time that the state below has seen. */
  readonly throughMs: number;
  /** The judge as last left, JSON. */
  readonly state: string;
}

/** What one look at a pile changed; kept in one transaction, so a restart raises nothing twice. */
export interface WatchChange {
  readonly alarms: readonly AlarmRecord[];
  readonly steps: readonly AlarmStepRecord[];
  readonly watch: WatchRecord | null;
}

export interface Journal {
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
  };
  readonly claims: {
    /** All, ended ones included, oldest first. */
    list(): Promise<ClaimRecord[]>;
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
  readonly alarms: {
    /** Not closed. */
    open(): Promise<AlarmRecord[]>;
    get(id: string): Promise<AlarmRecord | undefined>;
    forPile(pileId: string, limit: number): Promise<AlarmRecord[]>;
    steps(alarmId: string): Promise<AlarmStepRecord[]>;
  };
  readonly watch: {
    get(pileId: string): Promise<WatchRecord | undefined>;
    /** Everything one look changed, in one transaction. */
    keep(change: WatchChange): Promise<void>;
    forget(pileId: string): Promise<void>;
  };
  readonly mappings: {
    list(): Promise<(MappingInput & { id: string })[]>;
    add(mapping: MappingInput & { id: string }): Promise<void>;
    remove(id: string): Promise<boolean>;
  };
  readonly settings: {
    get(key: string): Promise<string | undefined>;
    set(key: string, value: string): Promise<void>;
  };
  check(): Promise<void>;
  close(): Promise<void>;
}
