import type { z } from 'zod';
import { clockAheadMs } from '../../../shared/clock-ahead.ts';
import type { newBatchSchema } from '../../../shared/contracts/piles.ts';
import { type Message, message } from '../../../shared/messages/message.ts';
import type { BatchRecord } from '../../../shared/store/journal.ts';
import { randomId } from '../../id-from-name.ts';
import { omitUndefined } from '../omit-undefined.ts';

type NewBatch = z.output<typeof newBatchSchema>;

/** The first record of a batch; laid now where it says no other time. */
export function newBatch(
  pileId: string,
  { stage, startedAt, recipe, limits }: Pick<NewBatch, 'stage' | 'startedAt' | 'recipe' | 'limits'>,
  nowMs: number,
): BatchRecord {
  return {
    id: randomId(),
    pileId,
    stage,
    startedAtMs: startedAt ?? nowMs,
    endedAtMs: null,
    outcome: null,
    recipe: omitUndefined(recipe),
    limits: omitUndefined(limits),
  };
}

/** What is wrong with the time at which a batch was laid; undefined when nothing is. */
export function startProblem(startedAtMs: number | undefined, nowMs: number): Message | undefined {
  if (startedAtMs === undefined || startedAtMs <= nowMs + clockAheadMs) return undefined;
  return message('problem.laid-in-future');
}
