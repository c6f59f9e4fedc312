/** The journal's columns as the newest migration leaves them. */

import type { Ending, FlowWay, LineageKind, Use } from '../../contracts/lineage.ts';
import type { EntryKind } from '../../entry.ts';
import type { Position, Stage } from '../../names.ts';
import type { KeyHearing } from '../../probe-key.ts';
import type { AlarmState, Severity, WarningKind } from '../../warning.ts';
import type { DeliveryTables } from './delivery-tables.ts';
import type { PeopleTables } from './people-tables.ts';

export interface JournalTables extends PeopleTables, DeliveryTables {
  site: { id: string; name: string; time_zone: string | null; latitude: number | null; longitude: number | null };
  pile: { id: string; site_id: string; name: string; created_at_ms: number };
  batch: BatchRow;
  probe: {
    site: string;
    probe: string;
    /** 1 or 0; null while it never said. */
    online: number | null;
    online_at_ms: number | null;
    temperature_offset_c: number;
  };
  claim: {
    site: string;
    probe: string;
    pile_id: string;
    position: Position;
    from_ms: number;
    to_ms: number | null;
  };
  entry: EntryRow;
  photo: { id: string; digest: string; width: number; height: number; bytes: number; kept_at_ms: number };
  batch_story: { batch_id: string; name: string | null; ending: Ending | null; reason: string | null };
  lot: LotRow;
  use_of_batch: UseRow;
  flow: FlowRow;
  alarm: AlarmRow;
  alarm_step: {
    alarm_id: string;
    /** 1, 2, 3 ... within the alarm. */
    number: number;
    at_ms: number;
    from_state: AlarmState;
    to_state: AlarmState;
    arrow: string;
    by: string | null;
    note: string | null;
  };
  watch: { pile_id: string; batch_id: string; through_ms: number; state: string };
  mapping: {
    id: string;
    /** Order in which they were added. */
    number: number;
    filter: string;
    site: string;
    probe: string;
    /** What is read of its messages, as JSON. */
    reads: string;
  };
  /** The newest issue of a site; its points are JSON. */
  air_ahead: { site_id: string; source: string; issued_at_ms: number; received_at_ms: number; points: string };
  setting: { key: string; value: string };
  broker_key: ProbeKeyRow;
  /** Pictures of photos, where the journal is shared by several processes; else they are files beside it. */
  picture: { digest: string; size: 'whole' | 'small'; bytes: Uint8Array };
  worker: { id: string; until_ms: number /** JSON. */; state: string };
  lease: LeaseRow;
  pile_view: PileViewRow;
  pile_command: PileCommandRow;
}

/** Who watches a site. */
interface LeaseRow {
  site: string;
  /** Id of a worker; null while nobody has it. */
  holder: string | null;
  /** One more each time it changes hands. */
  fence: number;
  /** By the database's clock. */
  until_ms: number;
  /** 1 once everything published at the site reaches the session of its own at the broker. */
  heard: number;
}

/** A pile as its watcher last saw it, for processes that do not watch; all but id and time is JSON. */
interface PileViewRow {
  pile_id: string;
  changed_ms: number;
  summary: string;
  assessment: string;
  band: string;
}

/** What somebody asked whoever watches a pile to do. */
interface PileCommandRow {
  id: string;
  /** Order in which they were asked. */
  number: number;
  site: string;
  pile_id: string;
  /** JSON, as is the answer. */
  command: string;
  asked_ms: number;
  done_ms: number | null;
  answer: string | null;
}

export interface ProbeKeyRow {
  id: string;
  name: string;
  site: string | null;
  probe: string | null;
  /** JSON. */
  foreign_filters: string;
  hears: KeyHearing;
  secret_sha256: string;
  mosquitto_hash: string;
  made_at_ms: number;
  made_by: string | null;
  revoked_at_ms: number | null;
  revoked_by: string | null;
}

export interface BatchRow {
  id: string;
  pile_id: string;
  stage: Stage;
  started_at_ms: number;
  ended_at_ms: number | null;
  outcome: string | null;
  /** JSON, as are the limits. */
  recipe: string;
  limits: string;
}

export interface AlarmRow {
  id: string;
  pile_id: string;
  kind: WarningKind;
  position: Position | null;
  severity: Severity;
  state: AlarmState;
  raised_at_ms: number;
  changed_at_ms: number;
  closed_at_ms: number | null;
  machine: string;
  words: string;
}

/** One version of an entry. */
export interface EntryRow {
  id: string;
  entry_id: string;
  /** 1, 2, 3 ... within the entry; `newest` is 1 on the last and 0 before. */
  version: number;
  newest: number;
  pile_id: string;
  kind: EntryKind;
  /** The batch that it names; null where its time says of which one it is. */
  batch_id: string | null;
  at_ms: number;
  recorded_at_ms: number;
  by: string | null;
  note: string | null;
  /** JSON, as is `what`. */
  photo_ids: string;
  what: string;
  reason: string | null;
  /** 1 or 0. */
  withdrawn: number;
}

export interface LotRow {
  id: string;
  name: string;
  created_at_ms: number;
  storage: string | null;
  mass_kg: number | null;
  volume_l: number | null;
  note: string | null;
  /** 1 or 0. */
  used_up: number;
  /** JSON. */
  facts: string;
}

export interface UseRow {
  id: string;
  batch_id: string;
  target: Use['target'];
  place: string;
  at_ms: number;
  mass_kg: number | null;
  volume_l: number | null;
  area_m2: number | null;
  by: string | null;
  note: string | null;
}

export interface FlowRow {
  id: string;
  from_kind: LineageKind;
  from_id: string;
  to_kind: LineageKind;
  to_id: string;
  way: FlowWay;
  at_ms: number;
  mass_kg: number | null;
  volume_l: number | null;
  /** Set once it was taken back as a mistake. */
  withdrawn_at_ms: number | null;
}
