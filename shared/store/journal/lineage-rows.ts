/** Flows and uses between rows and records. */
import type { FlowRecord, UseRecord } from '../journal.ts';
import type { RowPlan } from './read-rows.ts';
import type { FlowRow, UseRow } from './tables.ts';

export const flowPlan: RowPlan<'flow', FlowRecord> = {
  table: 'flow',
  toRecord: (row) => ({
    id: row.id,
    from: { kind: row.from_kind, id: row.from_id },
    to: { kind: row.to_kind, id: row.to_id },
    way: row.way,
    atMs: row.at_ms,
    massKg: row.mass_kg,
    volumeL: row.volume_l,
    withdrawnAtMs: row.withdrawn_at_ms,
  }),
  standIns: () => ({ mass_kg: null, volume_l: null }),
};

export function flowToRow(flow: FlowRecord): FlowRow {
  return {
    id: flow.id,
    from_kind: flow.from.kind,
    from_id: flow.from.id,
    to_kind: flow.to.kind,
    to_id: flow.to.id,
    way: flow.way,
    at_ms: flow.atMs,
    mass_kg: flow.massKg,
    volume_l: flow.volumeL,
    withdrawn_at_ms: flow.withdrawnAtMs,
  };
}

export const usePlan: RowPlan<'use_of_batch', UseRecord> = {
  table: 'use_of_batch',
  toRecord: (row) => ({
    id: row.id,
    batchId: row.batch_id,
    target: row.target,
    place: row.place,
    atMs: row.at_ms,
    massKg: row.mass_kg,
    volumeL: row.volume_l,
    areaM2: row.area_m2,
    by: row.by,
    note: row.note,
  }),
  standIns: () => ({ mass_kg: null, volume_l: null, area_m2: null, by: null, note: null }),
};

export function useToRow(use: UseRecord): UseRow {
  return {
    id: use.id,
    batch_id: use.batchId,
    target: use.target,
    place: use.place,
    at_ms: use.atMs,
    mass_kg: use.massKg,
    volume_l: use.volumeL,
    area_m2: use.areaM2,
    by: use.by,
    note: use.note,
  };
}
