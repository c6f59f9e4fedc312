/**
 * An earlier batch out of a notebook, kept so that it can be compared. It never lays two batches of the same days on
 * one pile: their readings would mix.
 */
import type { z } from 'zod';
import type { Clock } from '../../../shared/clock.ts';
import type { EarlierAnswer, earlierBatchSchema } from '../../../shared/contracts/seasons.ts';
import { toInstant } from '../../../shared/contracts/time.ts';
import { inWords } from '../../../shared/messages/in-words.ts';
import { type Message, message } from '../../../shared/messages/message.ts';
import type { Reading } from '../../../shared/reading.ts';
import type { BatchRecord, Journal } from '../../../shared/store/journal.ts';
import type { ReadingsStore } from '../../../shared/store/readings-store.ts';
import { msPerDay, msPerMinute } from '../../../shared/units.ts';
import { randomId } from '../../id-from-name.ts';
import type { PilePort } from '../../pile/pile-port.ts';
import { omitUndefined } from '../omit-undefined.ts';
import { type DayTable, readDayTable } from './day-table.ts';

type Ask = z.output<typeof earlierBatchSchema>;
export interface BringInParts {
  readonly journal: Journal;
  readonly readings: ReadingsStore;
  readonly watch: PilePort;
  readonly clock: Clock;
}

const fewestRows = 3;
const longestMs = 200 * msPerDay;
/** The last reading belongs to the batch too, with the ten minutes of its rollup. */
const tailMs = 20 * msPerMinute;
const appendRows = 5_000;

/** @returns Undefined when there is no such site. */
export async function bringIn(parts: BringInParts, ask: Ask): Promise<EarlierAnswer | undefined> {
  const site = (await parts.journal.sites.list()).find(({ id }) => id === ask.site);
  if (!site) return undefined;
  const table = readDayTable(ask.table, {
    timeZone: site.timeZone ?? 'UTC',
    dateOrder: ask.dateOrder,
    unit: ask.temperatureUnit,
  });
  const nowMs = parts.clock.nowMs();
  const problem = problemOf(table, nowMs);
  const batchId = ask.keep && problem === null ? await keep(parts, ask, site.name, table) : null;
  const { rows } = table;
  return {
    batchId,
    from: rows[0] ? toInstant(rows[0].atMs) : null,
    to: rows.at(-1) ? toInstant((rows.at(-1) as DayTable['rows'][number]).atMs) : null,
    core: rows.length,
    air: rows.filter(({ airC }) => airC !== null).length,
    highestC: rows.length === 0 ? null : rows.reduce((most, { coreC }) => Math.max(most, coreC), rows[0]?.coreC ?? 0),
    refused: table.refused
      .slice(0, 200)
      .map(({ line, text, said }) => ({ line, text, ...inWords({ reason: said }, nowMs) })),
    ...inWords({ problem }, nowMs),
  };
}

function problemOf({ rows }: DayTable, nowMs: number): Message | null {
  const [first, last] = [rows[0], rows.at(-1)];
  if (!first || !last || rows.length < fewestRows) return message('import.few-readings', { leastCount: fewestRows });
  if (last.atMs > nowMs) return message('import.days-in-future');
  if (last.atMs - first.atMs > longestMs) return message('import.many-days', { mostCount: longestMs / msPerDay });
  return null;
}

async function keep(parts: BringInParts, ask: Ask, siteName: string, { rows }: DayTable): Promise<string> {
  const { journal, readings } = parts;
  const [first, last] = [rows[0], rows.at(-1)];
  if (!first || !last) throw new RangeError('Cannot keep a batch as it must have readings: it has none');
  const id = randomId();
  const batch = {
    id,
    stage: ask.stage,
    startedAtMs: first.atMs,
    endedAtMs: last.atMs + tailMs,
    outcome: ask.outcome || null,
    recipe: omitUndefined(ask.recipe),
    limits: {},
  };
  const probes = { core: `notebook-${id}`, air: `notebook-${id}-air` } as const;
  const measured = rows.flatMap(({ atMs, coreC, airC }): Reading[] => {
    const reading = { site: ask.site, quantity: 'temperature' as const, atMs };
    return [
      { ...reading, probe: probes.core, value: coreC },
      ...(airC === null ? [] : [{ ...reading, probe: probes.air, value: airC }]),
    ];
  });
  // Readings first: without their batch they are a probe nobody claimed, and harm nothing.
  for (let from = 0; from < measured.length; from += appendRows) {
    await readings.append(measured.slice(from, from + appendRows));
  }
  const pileId = await layOn(parts, ask.site, siteName, batch);
  for (const [position, probe] of Object.entries(probes) as ['core' | 'air', string][]) {
    if (!measured.some((reading) => reading.probe === probe)) continue;
    await journal.claims.claim({ site: ask.site, probe, pileId, position, fromMs: batch.startedAtMs });
    await journal.claims.release(ask.site, probe, batch.endedAtMs);
  }
  await journal.lineage.rename(id, ask.name);
  await parts.watch.reload(pileId);
  return id;
}

/** On the first pile for earlier batches of the site that is free in those days. */
async function layOn(
  { journal, clock }: BringInParts,
  siteId: string,
  siteName: string,
  batch: Omit<BatchRecord, 'pileId'>,
): Promise<string> {
  for (let place = 1; ; place += 1) {
    const pileId =
      place === 1 ? `earlier-${siteId}`.slice(0, 64) : `earlier-${siteId}`.slice(0, 60).concat(`-${place}`);
    const there = await journal.piles.get(pileId);
    if (!there) {
      const name = `Earlier batches, ${siteName}${place === 1 ? '' : ` (${place})`}`.slice(0, 80);
      await journal.piles.add({ id: pileId, siteId, name, createdAtMs: clock.nowMs() }, { ...batch, pileId });
      return pileId;
    }
    const lying = await journal.batches.list(pileId);
    const isFree = lying.every(
      (other) =>
        (other.endedAtMs ?? Number.POSITIVE_INFINITY) <= batch.startedAtMs ||
        other.startedAtMs >= (batch.endedAtMs ?? Number.POSITIVE_INFINITY),
    );
    if (!isFree || there.siteId !== siteId) continue;
    await journal.batches.add({ ...batch, pileId });
    return pileId;
  }
}
