/**
 * What each column of the journal may hold. SQLite keeps any value in any column, and a file can be damaged anywhere: so
 * rows are checked as they are read, like everything else that comes from outside.
 */
import { createHash } from 'node:crypto';
import { z } from 'zod';
import { mostScale } from '../../contracts/ingest.ts';
import { endings, flowWays, lineageKinds, useTargets } from '../../contracts/lineage.ts';
import { entryKindSchema } from '../../entry.ts';
import { epochMsSchema as epochMs } from '../../epoch.ts';
import { positionSchema, stageSchema } from '../../names.ts';
import {
  attemptOutcomes,
  keptMailStandings,
  messageStates,
  noticeReasons,
  noticeSubjects,
  notificationChannels,
} from '../../notifications.ts';
import { channelsKnown, roleSchema, scopeSchema } from '../../person.ts';
import { keyHearings } from '../../probe-key.ts';
import { foreignUnits, quantitySchema } from '../../quantity.ts';
import { alarmStateSchema, severitySchema, warningKindSchema } from '../../warning.ts';
import { linkKinds } from '../people-journal.ts';
import type { JournalTables } from './tables.ts';

const text = z.string();
const maybeText = text.nullable();
const maybeMs = epochMs.nullable();
const flag = z.union([z.literal(0), z.literal(1)]);
const count = z.number().int().min(0);
const amount = z.number().min(0).max(1e9).nullable();
const rank = z.number().int().min(0).max(3);
const taken = { taken_by: maybeText, taken_until_ms: maybeMs };

/** The tables whose rows are read through here. */
export type ReadTable =
  | 'site'
  | 'pile'
  | 'batch'
  | 'probe'
  | 'claim'
  | 'entry'
  | 'photo'
  | 'batch_story'
  | 'lot'
  | 'use_of_batch'
  | 'flow'
  | 'alarm'
  | 'alarm_step'
  | 'watch'
  | 'mapping'
  | 'air_ahead'
  | 'broker_key'
  | 'pile_ask'
  | 'notice'
  | 'message'
  | 'message_attempt'
  | 'telling'
  | 'push_device'
  | 'told_link'
  | 'hand_on'
  | 'turn'
  | 'mail_address'
  | 'person'
  | 'session'
  | 'link'
  | 'api_token'
  | 'attempt'
  | 'audit'
  | 'lease'
  | 'worker'
  | 'pile_view';

export const rowSchemas: { readonly [Table in ReadTable]: z.ZodType<JournalTables[Table]> } = {
  site: z.object({
    id: text,
    name: text,
    time_zone: maybeText,
    latitude: z.number().min(-90).max(90).nullable(),
    longitude: z.number().min(-180).max(180).nullable(),
  }),
  pile: z.object({ id: text, site_id: text, name: text, created_at_ms: epochMs }),
  batch: z.object({
    id: text,
    pile_id: text,
    stage: stageSchema,
    started_at_ms: epochMs,
    ended_at_ms: maybeMs,
    outcome: maybeText,
    recipe: text,
    limits: text,
  }),
  probe: z.object({
    site: text,
    probe: text,
    online: flag.nullable(),
    online_at_ms: maybeMs,
    temperature_offset_c: z.number().min(-100).max(100),
  }),
  claim: z.object({
    site: text,
    probe: text,
    pile_id: text,
    position: positionSchema,
    from_ms: epochMs,
    to_ms: maybeMs,
  }),
  entry: z.object({
    id: text,
    entry_id: text,
    version: count,
    newest: flag,
    pile_id: text,
    kind: entryKindSchema,
    at_ms: epochMs,
    recorded_at_ms: epochMs,
    by: maybeText,
    note: maybeText,
    photo_ids: text,
    what: text,
    reason: maybeText,
    withdrawn: flag,
  }),
  photo: z.object({ id: text, digest: text, width: count, height: count, bytes: count, kept_at_ms: epochMs }),
  batch_story: z.object({
    batch_id: text,
    name: maybeText,
    ending: z.enum(endings).nullable(),
    reason: maybeText,
  }),
  lot: z.object({
    id: text,
    name: text,
    created_at_ms: epochMs,
    storage: maybeText,
    mass_kg: amount,
    volume_l: amount,
    note: maybeText,
    used_up: flag,
    facts: text,
  }),
  use_of_batch: z.object({
    id: text,
    batch_id: text,
    target: z.enum(useTargets),
    place: text,
    at_ms: epochMs,
    mass_kg: amount,
    volume_l: amount,
    area_m2: amount,
    by: maybeText,
    note: maybeText,
  }),
  flow: z.object({
    id: text,
    from_kind: z.enum(lineageKinds),
    from_id: text,
    to_kind: z.enum(lineageKinds),
    to_id: text,
    way: z.enum(flowWays),
    at_ms: epochMs,
    mass_kg: amount,
    volume_l: amount,
    withdrawn_at_ms: maybeMs,
  }),
  alarm: z.object({
    id: text,
    pile_id: text,
    kind: warningKindSchema,
    position: positionSchema.nullable(),
    severity: severitySchema,
    state: alarmStateSchema,
    raised_at_ms: epochMs,
    changed_at_ms: epochMs,
    closed_at_ms: maybeMs,
    machine: text,
    words: text,
  }),
  alarm_step: z.object({
    alarm_id: text,
    place: count,
    at_ms: epochMs,
    from_state: alarmStateSchema,
    to_state: alarmStateSchema,
    arrow: text,
    by: maybeText,
    note: maybeText,
  }),
  watch: z.object({ pile_id: text, batch_id: text, through_ms: epochMs, state: text }),
  mapping: z.object({
    id: text,
    place: count,
    filter: text.min(1),
    pointer: text,
    quantity: quantitySchema,
    unit: z.enum(foreignUnits),
    scale: z.number().refine((scale) => scale !== 0 && Math.abs(scale) <= mostScale, 'must be a number other than 0'),
    site: text,
    probe: text,
    time_pointer: maybeText,
  }),
  air_ahead: z.object({
    site_id: text,
    source: text,
    issued_at_ms: epochMs,
    received_at_ms: epochMs,
    points: text,
  }),
  broker_key: z.object({
    id: text,
    name: text,
    site: maybeText,
    probe: maybeText,
    foreign_filters: text,
    hears: z.enum(keyHearings),
    secret_sha256: text,
    mosquitto_hash: text,
    made_at_ms: epochMs,
    made_by: maybeText,
    revoked_at_ms: maybeMs,
    revoked_by: maybeText,
  }),
  pile_ask: z.object({
    id: text,
    place: count,
    site: text,
    pile_id: text,
    ask: text,
    asked_ms: epochMs,
    done_ms: maybeMs,
    answer: maybeText,
  }),
  notice: z.object({
    id: text,
    key: text,
    about: z.enum(noticeSubjects),
    answer: z.enum(noticeReasons),
    rank,
    site_id: maybeText,
    pile_id: maybeText,
    alarm_id: maybeText,
    person_id: maybeText,
    at_ms: epochMs,
    due_ms: epochMs,
    facts: text,
    state: z.enum(['new', 'spread', 'joined', 'dropped', 'set-aside']),
    joined_id: maybeText,
    ...taken,
  }),
  message: z.object({
    id: text,
    notice_id: text,
    person_id: text,
    person_name: text,
    way: z.enum(notificationChannels),
    address: text,
    address_label: text,
    rank,
    state: z.enum(messageStates),
    reason: maybeText,
    made_at_ms: epochMs,
    not_before_ms: epochMs,
    tries: count,
    next_try_ms: epochMs,
    done_at_ms: maybeMs,
    seen_at_ms: maybeMs,
    ...taken,
  }),
  message_attempt: z.object({
    message_id: text,
    number: count,
    at_ms: epochMs,
    took_ms: z.number().min(-1e9).max(1e9),
    outcome: z.enum(attemptOutcomes),
    detail: text,
  }),
  telling: z.object({ person_id: text, wishes: text }),
  push_device: z.object({
    id: text,
    person_id: text,
    endpoint: text,
    p256dh: text,
    auth: text,
    label: text,
    added_at_ms: epochMs,
    last_ok_at_ms: maybeMs,
    made_with: maybeText,
  }),
  told_link: z.object({
    digest: text,
    notice_id: text,
    person_id: text,
    person_name: text,
    way: z.enum(notificationChannels),
    expires_at_ms: epochMs,
    used_at_ms: maybeMs,
  }),
  hand_on: z.object({ site_id: text, person_ids: text, after_min: z.number().min(0).max(1e6) }),
  turn: z.object({ alarm_id: text, place: z.number().int(), at_ms: epochMs }),
  mail_address: z.object({
    person_id: text,
    address: text,
    standing: z.enum(keptMailStandings),
    since_ms: epochMs,
    asked_at_ms: maybeMs,
    tries: count,
  }),
  person: z.object({
    id: text,
    name: text,
    name_key: text,
    role: roleSchema,
    password_hash: text,
    created_at_ms: epochMs,
    removed_at_ms: maybeMs,
    language: maybeText,
  }),
  session: z.object({
    digest: text,
    id: text,
    person_id: text,
    made_at_ms: epochMs,
    seen_at_ms: epochMs,
    ends_at_ms: epochMs,
    address: text,
    agent: text,
  }),
  link: z.object({
    digest: text,
    id: text,
    kind: z.enum(linkKinds),
    role: roleSchema,
    person_id: maybeText,
    made_by: text,
    made_by_id: maybeText,
    made_at_ms: epochMs,
    ends_at_ms: epochMs,
  }),
  api_token: z.object({
    digest: text,
    id: text,
    person_id: text,
    name: text,
    scope: scopeSchema,
    made_at_ms: epochMs,
    used_at_ms: maybeMs,
    ends_at_ms: maybeMs,
  }),
  attempt: z.object({ key: text, failures: count, last_at_ms: epochMs, open_at_ms: epochMs }),
  audit: z.object({
    id: text,
    at_ms: epochMs,
    person_id: maybeText,
    person_name: text,
    via: z.enum([...channelsKnown, 'nobody']),
    what: text,
    subject: maybeText,
    address: maybeText,
    before: maybeText,
    after: maybeText,
  }),
  lease: z.object({ site: text, holder: maybeText, fence: count, until_ms: epochMs, heard: flag }),
  worker: z.object({ id: text, until_ms: epochMs, state: text }),
  pile_view: z.object({ pile_id: text, changed_ms: epochMs, summary: text, told: text, course: text }),
};

/** Where that is not `id`. */
const idColumns: Partial<Record<ReadTable, readonly string[]>> = {
  probe: ['site', 'probe'],
  claim: ['site', 'probe', 'from_ms'],
  batch_story: ['batch_id'],
  alarm_step: ['alarm_id', 'place'],
  watch: ['pile_id'],
  air_ahead: ['site_id'],
  message_attempt: ['message_id', 'number'],
  told_link: ['digest'],
  telling: ['person_id'],
  hand_on: ['site_id'],
  turn: ['alarm_id'],
  mail_address: ['person_id', 'address'],
  attempt: ['key'],
  lease: ['site'],
  pile_view: ['pile_id'],
};

/** Their keys hold addresses or come from secrets, and what is damaged is named to everybody who may ask for health. */
const hiddenIds: ReadonlySet<ReadTable> = new Set(['told_link', 'mail_address', 'attempt']);

/** By which columns a row is told apart from others. */
export const keyColumns = (table: ReadTable): readonly string[] => idColumns[table] ?? ['id'];

export function rowId(table: ReadTable, row: object): string {
  const id = keyColumns(table)
    .map((column) => String((row as Record<string, unknown>)[column]))
    .join('/');
  return hiddenIds.has(table) ? createHash('sha256').update(id).digest('hex').slice(0, 12) : id;
}

export function pileOfRow(table: ReadTable, row: object): string | null {
  const { pile_id, id } = row as { pile_id?: unknown; id?: unknown };
  const pileId = table === 'pile' ? id : pile_id;
  return typeof pileId === 'string' ? pileId : null;
}
