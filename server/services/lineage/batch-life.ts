/**
 * The steps in the life of batches, each kept whole or not at all. It never takes from a batch of which nothing is
 * left, or lets anything come of itself.
 */
import type { z } from 'zod';
import type { Clock } from '../../../shared/clock.ts';
import { clockAheadMs } from '../../../shared/clock-ahead.ts';
import type { GivenRecipe } from '../../../shared/contracts/domain/batch.ts';
import type {
  abandonSchema,
  addInputSchema,
  continueBatchSchema,
  keepLotSchema,
  layOnSchema,
  mergeBatchesSchema,
  newUseSchema,
  splitBatchSchema,
} from '../../../shared/contracts/lineage.ts';
import type { newLotSchema } from '../../../shared/contracts/lots.ts';
import { ConflictError } from '../../../shared/errors.ts';
import { message } from '../../../shared/messages/message.ts';
import type { BatchRecord, Journal, LineageChange, PileRecord } from '../../../shared/store/journal.ts';
import { randomId } from '../../id-from-name.ts';
import type { PilePort } from '../../pile/pile-port.ts';
import { omitUndefined } from '../omit-undefined.ts';
import { batchName, type Family, isEmptied, readFamily } from './family.ts';
import { ending, flow, inputFlows, refuseCircle } from './flow-records.ts';
import { restKg } from './rest.ts';

type Read<Schema extends z.ZodType> = z.output<Schema>;

interface Taken {
  readonly batch: BatchRecord;
  readonly massKg: number | null;
  readonly all: boolean;
}

export interface BatchLifeParts {
  readonly journal: Journal;
  readonly watch: PilePort;
  readonly clock: Clock;
}

export class BatchLife {
  readonly #parts: BatchLifeParts;
  #turn: Promise<unknown> = Promise.resolve();

  constructor(parts: BatchLifeParts) {
    this.#parts = parts;
  }

  /** @returns the new batch's id. */
  continue(batchId: string, ask: Read<typeof continueBatchSchema>): Promise<string> {
    return this.#inTurn(async (family, atMs) => {
      const batch = theBatch(family, batchId, '');
      const taken = [take(family, batch, ask.massKg, ask.all)];
      return this.#lay(family, ask, atMs(ask.at), taken, 'continued');
    });
  }

  merge(ask: Read<typeof mergeBatchesSchema>): Promise<string> {
    return this.#inTurn(async (family, atMs) => {
      const ids = ask.from.map(({ batchId }) => batchId);
      const twice = ids.findIndex((id, i) => ids.indexOf(id) < i);
      if (twice >= 0) throw new ConflictError(message('problem.merge-with-itself'), `/from/${twice}/batchId`);
      const taken = ask.from.map(({ batchId, massKg, all }, i) =>
        take(family, theBatch(family, batchId, `/from/${i}/batchId`), massKg, all),
      );
      return this.#lay(family, ask, atMs(ask.at), taken, 'merged');
    });
  }

  split(batchId: string, ask: Read<typeof splitBatchSchema>): Promise<void> {
    return this.#inTurn(async (family, atMs) => {
      const batch = theBatch(family, batchId, '');
      const at = notBefore(batch, atMs(ask.at));
      mustHaveSome(family, batch);
      const parts = ask.parts.map((part, i) => {
        const { pileId, pile } = this.#place(part.on, at, `/parts/${i}/on`);
        const recipe = { ...ofEveryPart(batch.recipe), ...omitUndefined(part.recipe), massKg: part.massKg };
        const made: BatchRecord = {
          ...batch,
          id: randomId(),
          pileId,
          startedAtMs: at,
          endedAtMs: null,
          outcome: null,
          recipe,
        };
        return {
          made,
          pile,
          name: part.name,
          flow: flow('batch', batch.id, 'batch', made.id, 'split', at, part.massKg),
        };
      });
      await this.#keep(
        {
          ended: ask.all ? [ending(batch, at, 'split')] : [],
          piles: parts.flatMap(({ pile }) => pile ?? []),
          batches: parts.map(({ made }) => made),
          names: parts.flatMap(({ made, name }) => (name === undefined ? [] : [{ batchId: made.id, name }])),
          flows: parts.map((part) => part.flow),
        },
        [batch, ...parts.map(({ made }) => made)],
      );
    });
  }

  abandon(batchId: string, ask: Read<typeof abandonSchema>): Promise<void> {
    return this.#inTurn(async (family, atMs) => {
      const batch = theBatch(family, batchId, '');
      const at = notBefore(batch, atMs(ask.at));
      mustHaveSome(family, batch);
      await this.#keep({ ended: [{ batchId, atMs: at, ending: 'abandoned', reason: ask.reason }] }, [batch]);
    });
  }

  use(batchId: string, ask: Read<typeof newUseSchema>): Promise<void> {
    return this.#inTurn(async (family, atMs) => {
      const batch = theBatch(family, batchId, '');
      const at = notBefore(batch, atMs(ask.at));
      mustHaveSome(family, batch);
      const massKg = ask.massKg ?? (ask.all ? restKg(family, batch) : null);
      const { target, place, volumeL = null, areaM2 = null, by = null, note } = ask;
      const use = { id: randomId(), batchId, target, place, atMs: at, massKg, volumeL, areaM2, by, note: note || null };
      await this.#keep(
        {
          ended: ask.all ? [ending(batch, at, 'used')] : [],
          uses: [use],
          flows: [flow('batch', batchId, 'use', use.id, 'used', at, massKg, volumeL)],
        },
        ask.all ? [batch] : [],
      );
    });
  }

  /** Part of a batch kept as a starter lot. @returns the lot's id. */
  keepLot(batchId: string, ask: Read<typeof keepLotSchema>): Promise<string> {
    return this.#inTurn(async (family, atMs) => {
      const batch = theBatch(family, batchId, '');
      const at = notBefore(batch, atMs(ask.at));
      mustHaveSome(family, batch);
      const { name, storage = null, massKg = null, volumeL = null } = ask;
      const lot = {
        id: randomId(),
        name,
        createdAtMs: at,
        storage,
        massKg,
        volumeL,
        note: null,
        usedUp: false,
        facts: { kind: 'starter' } as const,
      };
      await this.#keep(
        { lots: [lot], flows: [flow('batch', batchId, 'lot', lot.id, 'kept', at, massKg, volumeL)] },
        [],
      );
      return lot.id;
    });
  }

  addLot(ask: Read<typeof newLotSchema>): Promise<string> {
    return this.#inTurn(async (family, atMs) => {
      const { name, storage = null, massKg = null, volumeL = null, note, facts, from } = ask;
      const at = atMs(undefined);
      const id = randomId();
      const lot = { id, name, createdAtMs: at, storage, massKg, volumeL, note: note || null, usedUp: false, facts };
      const flows = inputFlows(family, from, { kind: 'lot', id }, at, '/from');
      await this.#keep({ lots: [lot], flows }, []);
      return id;
    });
  }

  addInput(batchId: string, ask: Read<typeof addInputSchema>): Promise<void> {
    return this.#inTurn(async (family, atMs) => {
      const batch = theBatch(family, batchId, '');
      const at = ask.at === undefined ? batch.startedAtMs : atMs(ask.at);
      await this.#keep({ flows: inputFlows(family, [ask], { kind: 'batch', id: batch.id }, at, '') }, []);
    });
  }

  async #lay(
    family: Family,
    ask: Omit<Read<typeof continueBatchSchema>, 'massKg' | 'all'>,
    at: number,
    taken: readonly Taken[],
    way: 'continued' | 'merged',
  ): Promise<string> {
    for (const { batch } of taken) notBefore(batch, at);
    const { pileId, pile } = this.#place(ask.on, at, '/on');
    const id = randomId();
    const inputs = inputFlows(family, ask.inputs, { kind: 'batch', id }, at, '/inputs');
    const flows = [
      ...taken.map(({ batch, massKg }) => flow('batch', batch.id, 'batch', id, way, at, massKg)),
      ...inputs,
    ];
    const batch: BatchRecord = {
      id,
      pileId,
      stage: ask.stage,
      startedAtMs: at,
      endedAtMs: null,
      outcome: null,
      recipe: omitUndefined(ask.recipe),
      limits: omitUndefined(ask.limits),
    };
    const emptied = taken.filter(({ all }) => all).map((one) => one.batch);
    await this.#keep(
      {
        ended: emptied.map((one) => ending(one, at, way)),
        piles: pile ? [pile] : [],
        batches: [batch],
        names: ask.name === undefined ? [] : [{ batchId: id, name: ask.name }],
        flows,
      },
      [...emptied, batch],
    );
    return id;
  }

  #place(on: Read<typeof layOnSchema>, atMs: number, pointer: string): { pileId: string; pile: PileRecord | null } {
    if ('pileId' in on) {
      if (!this.#parts.watch.get(on.pileId)) {
        throw new ConflictError(message('problem.no-pile-to-lay-on', { idText: on.pileId }), `${pointer}/pileId`);
      }
      return { pileId: on.pileId, pile: null };
    }
    const { id, site, name } = on.newPile;
    const pileId = id ?? randomId();
    return { pileId, pile: { id: pileId, siteId: site, name, createdAtMs: Math.min(atMs, this.#parts.clock.nowMs()) } };
  }

  async #keep(change: LineageChange, batches: readonly BatchRecord[]): Promise<void> {
    const { journal, watch } = this.#parts;
    await journal.lineage.keep(change, refuseCircle);
    for (const { batchId } of change.ended ?? []) {
      const ended = batches.find(({ id }) => id === batchId);
      if (ended && watch.get(ended.pileId)?.batch?.id === batchId) await watch.closeAlarms(ended.pileId);
    }
    for (const pileId of new Set(batches.map((batch) => batch.pileId))) await watch.reload(pileId);
  }

  /** One step after the other: each reads what the one before left. */
  #inTurn<T>(step: (family: Family, atMs: (given: number | undefined) => number) => Promise<T>): Promise<T> {
    const { journal, clock } = this.#parts;
    const done = this.#turn.then(async () => {
      const nowMs = clock.nowMs();
      return step(await readFamily(journal), (given) => {
        if (given !== undefined && given > nowMs + clockAheadMs) {
          throw new ConflictError(message('problem.done-in-future'), '/at');
        }
        return given ?? nowMs;
      });
    });
    this.#turn = done.catch(() => undefined);
    return done;
  }
}

/** What is as true of a part as of the whole; how it lies, and how damp it was, is its own. */
function ofEveryPart({ material, doseFrac }: GivenRecipe): GivenRecipe {
  return omitUndefined({ material, doseFrac });
}

function theBatch(family: Family, id: string, pointer: string): BatchRecord {
  const batch = family.batches.get(id);
  if (!batch) throw new ConflictError(message('problem.no-batch-to-take', { idText: id }), pointer);
  return batch;
}

function mustHaveSome(family: Family, batch: BatchRecord): void {
  const how = family.stories.get(batch.id)?.ending;
  if (how !== 'abandoned' && !isEmptied(family, batch.id)) return;
  throw new ConflictError(
    message('problem.nothing-left', {
      how: how === 'finished' ? 'other' : (how ?? 'other'),
      batchPart: batchName(family, batch),
    }),
    '',
  );
}

function notBefore(batch: BatchRecord, atMs: number): number {
  if (atMs < batch.startedAtMs) throw new ConflictError(message('problem.before-laid'), '/at');
  return atMs;
}

function take(family: Family, batch: BatchRecord, massKg: number | undefined, all: boolean): Taken {
  mustHaveSome(family, batch);
  return { batch, massKg: massKg ?? (all ? restKg(family, batch) : null), all };
}
