/** What went into each batch of the invented years, and where it went. */
import type { FlowRecord } from '../../../shared/store/journal.ts';
import { keepers } from './past-entries.ts';
import { branId, starterId } from './past-lots.ts';
import type { PastBatch } from './past-plan.ts';

export function flowsInto(batch: PastBatch): FlowRecord[] {
  const flow = (from: FlowRecord['from'], way: FlowRecord['way'], massKg: number | null): FlowRecord => ({
    id: `${from.id}-into-${batch.id}`,
    from,
    to: { kind: 'batch', id: batch.id },
    way,
    atMs: batch.laidAtMs,
    massKg,
    volumeL: null,
    withdrawnAtMs: null,
  });
  if (batch.fromId !== null) return [flow({ kind: 'batch', id: batch.fromId }, 'continued', batch.massKg / 2)];
  const starterKg = Number(((batch.recipe.doseFrac ?? 0) * batch.massKg).toFixed(3));
  return [
    flow({ kind: 'lot', id: starterId(batch.site, batch.year) }, 'input', Math.max(0.005, starterKg)),
    flow({ kind: 'lot', id: branId(batch.year) }, 'input', batch.massKg),
  ];
}

export function useOf(batch: PastBatch, endMs: number) {
  const id = `${batch.id}-bed`;
  const massKg = Number((batch.massKg * 0.9).toFixed(1));
  return {
    uses: [
      {
        id,
        batchId: batch.id,
        target: 'bed' as const,
        place: batch.site === 'saltmere-yard' ? 'Kitchen beds' : 'Upper terrace beds',
        atMs: endMs,
        massKg,
        volumeL: null,
        areaM2: Math.round(massKg / 0.6),
        by: keepers[batch.site],
        note: null,
      },
    ],
    flows: [
      ...flowsInto(batch),
      {
        id: `${batch.id}-used`,
        from: { kind: 'batch' as const, id: batch.id },
        to: { kind: 'use' as const, id },
        way: 'used' as const,
        atMs: endMs,
        massKg,
        volumeL: null,
        withdrawnAtMs: null,
      },
    ],
  };
}
