/** One batch with what went in, what came of it and where it was used. */
import { keyOf } from '../../../core/lineage/graph.ts';
import type { BatchDetail, FlowView, Use } from '../../../shared/contracts/lineage.ts';
import { toInstant } from '../../../shared/contracts/time.ts';
import type { BatchRecord, FlowRecord, UseRecord } from '../../../shared/store/journal.ts';
import { batchView, type Family, nodeFacts } from './family.ts';
import { amountsOf } from './rest.ts';

export function flowView({ id, from, to, way, atMs, massKg, volumeL }: FlowRecord): FlowView {
  return { id, from: { ...from }, to: { ...to }, way, at: toInstant(atMs), massKg, volumeL };
}

function useView({ atMs, massKg, areaM2, ...use }: UseRecord): Use {
  const rateKgPerM2 = massKg !== null && areaM2 !== null ? Math.round((massKg / areaM2) * 1000) / 1000 : null;
  return { ...use, at: toInstant(atMs), massKg, areaM2, rateKgPerM2 };
}

export function batchDetail(family: Family, batch: BatchRecord): BatchDetail {
  const named = (flow: FlowRecord, end: FlowRecord['from']) => {
    const { name = end.id, messages } = nodeFacts(family, keyOf(end)) ?? {};
    return { ...flowView(flow), name, ...(messages?.name && { messages: { name: messages.name } }) };
  };
  const isHere = (end: FlowRecord['from']) => end.kind === 'batch' && end.id === batch.id;
  return {
    ...batchView(family, batch),
    amounts: amountsOf(family, batch),
    inputs: inOrder(family.flows.filter(({ to }) => isHere(to)).map((flow) => named(flow, flow.from))),
    outputs: inOrder(family.flows.filter(({ from }) => isHere(from)).map((flow) => named(flow, flow.to))),
    uses: [...family.uses.values()].filter(({ batchId }) => batchId === batch.id).map(useView),
  };
}

/** By time, and by name what was done at one time. */
function inOrder<Named extends { at: string; name: string }>(flows: Named[]): Named[] {
  return flows.sort((one, other) => one.at.localeCompare(other.at) || one.name.localeCompare(other.name));
}
