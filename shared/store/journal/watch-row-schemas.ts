/** Rows of alarms, of whoever watches piles, and of where readings and foretold air come from. */
import { z } from 'zod';
import { positionSchema } from '../../names.ts';
import { keyHearings } from '../../probe-key.ts';
import { alarmStateSchema, severitySchema, warningKindSchema } from '../../warning.ts';
import { count, epochMs, flag, maybeMs, maybeText, text } from './row-fields.ts';

export const watchRowSchemas = {
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
    number: count,
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
    number: count,
    filter: text.min(1),
    site: text,
    probe: text,
    reads: text,
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
  pile_command: z.object({
    id: text,
    number: count,
    site: text,
    pile_id: text,
    command: text,
    asked_ms: epochMs,
    done_ms: maybeMs,
    answer: maybeText,
  }),
  lease: z.object({ site: text, holder: maybeText, fence: count, until_ms: epochMs, heard: flag }),
  worker: z.object({ id: text, until_ms: epochMs, state: text }),
  pile_view: z.object({ pile_id: text, changed_ms: epochMs, summary: text, assessment: text, band: text }),
};
