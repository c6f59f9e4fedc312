/**
 * shared/store/journal/tables.ts: the journal's columns as the newest migration leaves them.
 */
import type { MappingInput } from '../../api/ingest.ts';
import type { ActKind } from '../../batch.ts';
import type { Position, Stage } from '../../names.ts';
import type { Quantity } from '../../quantity.ts';
import type { AlarmState, Severity, WarningKind } from '../../warning.ts';

export interface JournalTables {
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
  act: {
    id: string;
    pile_id: string;
    kind: ActKind;
    at_ms: number;
    amount_l: number | null;
    depth_m: number | null;
    note: string | null;
  };
  alarm: AlarmRow;
  alarm_step: {
    alarm_id: string;
    /** 1, 2, 3 ... within the alarm. */
    place: number;
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
    place: number;
    filter: string;
    pointer: string;
    quantity: Quantity;
    unit: MappingInput['unit'];
    scale: number;
    site: string;
    probe: string;
    time_pointer: string | null;
  };
  setting: { key: string; value: string };
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
