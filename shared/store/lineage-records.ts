/** What became of batches: lots, uses, and what flowed into what. */
import type { Ending, FlowWay, LineageKind, Use } from '../contracts/lineage.ts';
import type { LotFacts } from '../contracts/lots.ts';
import type { BatchRecord, PileRecord } from './pile-records.ts';

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
