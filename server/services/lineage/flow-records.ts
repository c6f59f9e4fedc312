/** What went from where to where, as it is written down. */
import type { z } from 'zod';
import { findCircle } from '../../../core/lineage/circle.ts';
import type { continueBatchSchema } from '../../../shared/contracts/lineage.ts';
import { ConflictError } from '../../../shared/errors.ts';
import { message } from '../../../shared/messages/message.ts';
import type { BatchRecord, FlowRecord } from '../../../shared/store/journal.ts';
import { randomId } from '../../id-from-name.ts';
import type { Family } from './family.ts';

type Inputs = z.output<typeof continueBatchSchema>['inputs'];
/** How a batch came to have nothing left. */
type Emptied = 'continued' | 'split' | 'merged' | 'used';

export function refuseCircle(flows: readonly FlowRecord[]): void {
  const circle = findCircle(flows);
  if (circle) throw new ConflictError(message('problem.circle', { circleText: circle.join(' -> ') }), '');
}

export function ending(batch: BatchRecord, atMs: number, how: Emptied) {
  return { batchId: batch.id, atMs, ending: how, reason: null };
}

export function flow(
  fromKind: FlowRecord['from']['kind'],
  fromId: string,
  toKind: FlowRecord['to']['kind'],
  toId: string,
  way: FlowRecord['way'],
  atMs: number,
  massKg: number | null,
  volumeL: number | null = null,
): FlowRecord {
  const [from, to] = [
    { kind: fromKind, id: fromId },
    { kind: toKind, id: toId },
  ];
  return { id: randomId(), from, to, way, atMs, massKg, volumeL, withdrawnAtMs: null };
}

export function inputFlows(
  family: Family,
  inputs: Inputs,
  to: FlowRecord['to'],
  atMs: number,
  pointer: string,
): FlowRecord[] {
  return inputs.map(({ lotId, massKg = null, volumeL = null }, i) => {
    if (!family.lots.has(lotId)) {
      const where = pointer === '' ? '/lotId' : `${pointer}/${i}/lotId`;
      throw new ConflictError(message('problem.no-lot', { idText: lotId }), where);
    }
    return flow('lot', lotId, to.kind, to.id, 'input', atMs, massKg, volumeL);
  });
}
