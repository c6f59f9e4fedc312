/** Everything the journal knows of lots, batches and uses, read at once, with names for people. */
import { wholeKg } from '../../../core/lineage/amounts.ts';
import { type LineageKey, refOf } from '../../../core/lineage/graph.ts';
import type { Whole } from '../../../core/lineage/shares.ts';
import { type BatchView, endingNames, type LineageNode } from '../../../shared/contracts/lineage.ts';
import { toInstant } from '../../../shared/contracts/time.ts';
import type {
  BatchRecord,
  BatchStoryRecord,
  FlowRecord,
  Journal,
  LotRecord,
  PileRecord,
  UseRecord,
} from '../../../shared/store/journal.ts';
import { dayWords, knownZone } from '../day-words.ts';

export interface Family {
  /** Of the first site, in which days are told; UTC where it has none. */
  readonly timeZone: string;
  readonly piles: ReadonlyMap<string, PileRecord>;
  readonly batches: ReadonlyMap<string, BatchRecord>;
  readonly stories: ReadonlyMap<string, BatchStoryRecord>;
  readonly lots: ReadonlyMap<string, LotRecord>;
  readonly uses: ReadonlyMap<string, UseRecord>;
  /** Those taken back are left out. */
  readonly flows: readonly FlowRecord[];
}

export async function readFamily(journal: Journal): Promise<Family> {
  const [sites, piles, batches, stories, lots, uses, flows] = await Promise.all([
    journal.sites.list(),
    journal.piles.list(),
    journal.batches.list(),
    journal.lineage.stories(),
    journal.lots.list(),
    journal.lineage.uses(),
    journal.lineage.flows(),
  ]);
  return {
    timeZone: knownZone(sites.find(({ timeZone }) => timeZone)?.timeZone),
    piles: byId(piles),
    batches: byId(batches),
    stories: new Map(stories.map((story) => [story.batchId, story])),
    lots: byId(lots),
    uses: byId(uses),
    flows: flows.filter(({ withdrawnAtMs }) => withdrawnAtMs === null),
  };
}

function byId<T extends { readonly id: string }>(records: readonly T[]): Map<string, T> {
  return new Map(records.map((record) => [record.id, record]));
}

const stageWords = { bran: 'Bran', soil: 'Soil' } as const;

/** As the person named it, else by stage, day and place, e.g. "Bran of 3 Apr 2031, Cart shed". */
export function batchName(family: Family, batch: BatchRecord): string {
  const pile = family.piles.get(batch.pileId)?.name ?? batch.pileId;
  return (
    family.stories.get(batch.id)?.name ??
    `${stageWords[batch.stage]} of ${dayWords(batch.startedAtMs, family.timeZone)}, ${pile}`
  );
}

export function batchView(family: Family, batch: BatchRecord): BatchView {
  const story = family.stories.get(batch.id);
  const pile = family.piles.get(batch.pileId);
  return {
    id: batch.id,
    name: batchName(family, batch),
    pileId: batch.pileId,
    pileName: pile?.name ?? batch.pileId,
    site: pile?.siteId ?? '',
    stage: batch.stage,
    startedAt: toInstant(batch.startedAtMs),
    endedAt: batch.endedAtMs === null ? null : toInstant(batch.endedAtMs),
    ending: story?.ending ?? (batch.endedAtMs === null ? null : 'finished'),
    reason: story?.reason ?? null,
    outcome: batch.outcome,
  };
}

type NodeFacts = Pick<LineageNode, 'name' | 'says' | 'at' | 'stage' | 'ending'>;

/** Undefined for a key that leads nowhere. */
export function nodeFacts(family: Family, key: LineageKey): NodeFacts | undefined {
  const { kind, id } = refOf(key);
  if (kind === 'batch') {
    const batch = family.batches.get(id);
    if (!batch) return undefined;
    const view = batchView(family, batch);
    const ended = view.ending === null ? '' : `, ${endingNames[view.ending]}`;
    return {
      name: view.name,
      says: `${batch.stage}, laid ${dayWords(batch.startedAtMs, family.timeZone)} on ${view.pileName}${ended}`,
      at: view.startedAt,
      stage: batch.stage,
      ending: view.ending,
    };
  }
  if (kind === 'lot') {
    const lot = family.lots.get(id);
    return (
      lot && {
        name: lot.name,
        says: lotSays(lot, family.timeZone),
        at: toInstant(lot.createdAtMs),
        stage: null,
        ending: null,
      }
    );
  }
  const use = family.uses.get(id);
  if (!use) return undefined;
  const amount = use.massKg === null ? '' : `, ${Math.round(use.massKg * 100) / 100} kg`;
  const says = `${useWords[use.target]} ${dayWords(use.atMs, family.timeZone)}${amount}`;
  return { name: use.place, says, at: toInstant(use.atMs), stage: null, ending: null };
}

const useWords: Record<UseRecord['target'], string> = {
  bed: 'spread on a bed',
  compost: 'added to compost',
  potting: 'mixed into potting soil',
  store: 'put in store',
  'given-away': 'given away',
  other: 'used',
};

function lotSays({ facts }: LotRecord, timeZone: string): string {
  if (facts.kind === 'starter') {
    const place = facts.collectedPlace ? ` collected at ${facts.collectedPlace}` : '';
    const day = facts.collectedAt === undefined ? '' : ` ${dayWords(facts.collectedAt, timeZone)}`;
    return `starter${place}${day}`;
  }
  const from = facts.supplier ? ` from ${facts.supplier}` : '';
  const number = facts.lotNumber ? `, lot ${facts.lotNumber}` : '';
  const organic = facts.organic === 'unknown' ? '' : `, organic: ${facts.organic}`;
  return `${facts.material.replaceAll('-', ' ')}${from}${number}${organic}`;
}

/** What there was of a node before anything was taken from it. */
export function wholeOf(family: Family): (key: LineageKey) => Whole {
  return (key) => {
    const { kind, id } = refOf(key);
    if (kind === 'lot') {
      const lot = family.lots.get(id);
      return { massKg: lot?.massKg ?? null, emptied: lot?.usedUp ?? false };
    }
    if (kind === 'use') return { massKg: family.uses.get(id)?.massKg ?? null, emptied: false };
    const batch = family.batches.get(id);
    const into = family.flows.filter(({ to }) => to.kind === 'batch' && to.id === id);
    return { massKg: wholeKg(batch?.recipe.massKg ?? null, into), emptied: isEmptied(family, id) };
  };
}

/** Endings by which all of a batch went on; a finished one may still lie in sacks. */
export function isEmptied({ stories }: Family, batchId: string): boolean {
  const ending = stories.get(batchId)?.ending ?? 'finished';
  return ending === 'continued' || ending === 'split' || ending === 'merged' || ending === 'used';
}
