/** Everything the journal knows of lots, batches and uses, read at once, with names for people. */
import { wholeKg } from '../../../core/lineage/amounts.ts';
import { type LineageKey, refOf } from '../../../core/lineage/graph.ts';
import type { Whole } from '../../../core/lineage/shares.ts';
import type { BatchView, LineageNode } from '../../../shared/contracts/lineage.ts';
import { toInstant } from '../../../shared/contracts/time.ts';
import { plainReader } from '../../../shared/messages/format.ts';
import { inWords } from '../../../shared/messages/in-words.ts';
import { type Message, message, verbatim } from '../../../shared/messages/message.ts';
import { plainSpaces, renderEnglish } from '../../../shared/messages/render.ts';
import type {
  BatchRecord,
  BatchStoryRecord,
  FlowRecord,
  Journal,
  LotRecord,
  PileRecord,
  UseRecord,
} from '../../../shared/store/journal.ts';
import { dayOf } from '../../../shared/zoned-time.ts';
import { knownZone } from '../known-zone.ts';
import { lotMaterial, organicChoice } from './lot-words.ts';
import { newestVerdicts, type VerdictRecord, verdictView } from './newest-verdicts.ts';

export interface Family {
  /** Of the first site, by whose days batches are named; UTC where it has none. */
  readonly timeZone: string;
  readonly piles: ReadonlyMap<string, PileRecord>;
  readonly batches: ReadonlyMap<string, BatchRecord>;
  readonly stories: ReadonlyMap<string, BatchStoryRecord>;
  /** By batch. */
  readonly verdicts: ReadonlyMap<string, VerdictRecord>;
  readonly lots: ReadonlyMap<string, LotRecord>;
  readonly uses: ReadonlyMap<string, UseRecord>;
  /** Those taken back are left out. */
  readonly flows: readonly FlowRecord[];
}

export async function readFamily(journal: Journal): Promise<Family> {
  const [sites, piles, batches, stories, verdicts, lots, uses, flows] = await Promise.all([
    journal.sites.list(),
    journal.piles.list(),
    journal.batches.list(),
    journal.lineage.stories(),
    newestVerdicts(journal),
    journal.lots.list(),
    journal.lineage.uses(),
    journal.lineage.flows(),
  ]);
  return {
    timeZone: knownZone(sites.find(({ timeZone }) => timeZone)?.timeZone),
    piles: byId(piles),
    batches: byId(batches),
    stories: new Map(stories.map((story) => [story.batchId, story])),
    verdicts,
    lots: byId(lots),
    uses: byId(uses),
    flows: flows.filter(({ withdrawnAtMs }) => withdrawnAtMs === null),
  };
}

function byId<T extends { readonly id: string }>(records: readonly T[]): Map<string, T> {
  return new Map(records.map((record) => [record.id, record]));
}

/** As the person named it. */
const givenName = ({ stories }: Family, batch: BatchRecord): string | null => stories.get(batch.id)?.name ?? null;

/** By stage, day and place where nobody named it, e.g. "Bran of 3 Apr 2031, Cart shed". */
function usualName(family: Family, { stage, startedAtMs, pileId }: BatchRecord): Message {
  const laidDay = dayOf(startedAtMs, family.timeZone);
  return message('lineage.batch-name', { stage, laidDay, pileName: family.piles.get(pileId)?.name ?? pileId });
}

export function batchName(family: Family, batch: BatchRecord): Message {
  const given = givenName(family, batch);
  return given === null ? usualName(family, batch) : verbatim(given);
}

/** For an answer: the name, and its message where it is to be said in the language of whoever reads. */
function named(family: Family, batch: BatchRecord): Pick<BatchView, 'name' | 'messages'> {
  const given = givenName(family, batch);
  return given === null ? inWords({ name: usualName(family, batch) }, 0) : { name: given };
}

const inEnglish = ({ timeZone }: Family, said: Message): string =>
  plainSpaces(renderEnglish(said, { ...plainReader(0), timeZone }));

export function batchView(family: Family, batch: BatchRecord): BatchView {
  const story = family.stories.get(batch.id);
  const pile = family.piles.get(batch.pileId);
  const verdict = family.verdicts.get(batch.id);
  return {
    id: batch.id,
    ...named(family, batch),
    pileId: batch.pileId,
    pileName: pile?.name ?? batch.pileId,
    site: pile?.siteId ?? '',
    stage: batch.stage,
    startedAt: toInstant(batch.startedAtMs),
    endedAt: batch.endedAtMs === null ? null : toInstant(batch.endedAtMs),
    ending: story?.ending ?? (batch.endedAtMs === null ? null : 'finished'),
    reason: story?.reason ?? null,
    outcome: batch.outcome,
    verdict: verdict ? verdictView(verdict) : null,
  };
}

type NodeFacts = Pick<LineageNode, 'name' | 'says' | 'at' | 'stage' | 'ending' | 'messages'>;

/** Undefined for a key that leads nowhere. */
export function nodeFacts(family: Family, key: LineageKey): NodeFacts | undefined {
  const known = nodeOf(family, key);
  if (!known) return undefined;
  const { messages, ...facts } = known.facts;
  return { ...facts, says: inEnglish(family, known.says), messages: { ...messages, says: known.says } };
}

interface KnownNode {
  readonly facts: Pick<LineageNode, 'name' | 'at' | 'stage' | 'ending'> & Pick<BatchView, 'messages'>;
  readonly says: Message;
}

function nodeOf(family: Family, key: LineageKey): KnownNode | undefined {
  const { kind, id } = refOf(key);
  if (kind === 'batch') {
    const batch = family.batches.get(id);
    return batch && batchNode(family, batch);
  }
  if (kind === 'lot') {
    const lot = family.lots.get(id);
    return lot && { facts: { ...unstaged, name: lot.name, at: toInstant(lot.createdAtMs) }, says: lotSays(lot) };
  }
  const use = family.uses.get(id);
  return use && { facts: { ...unstaged, name: use.place, at: toInstant(use.atMs) }, says: useSays(use) };
}

const unstaged = { stage: null, ending: null } as const;

function batchNode(family: Family, batch: BatchRecord): KnownNode {
  const { name, messages, pileName, startedAt, ending } = batchView(family, batch);
  const laid = { stage: batch.stage, laidDayMs: batch.startedAtMs, pileName };
  return {
    facts: { name, messages, at: startedAt, stage: batch.stage, ending },
    says: message('lineage.batch', { ...laid, ending: ending ?? 'other' }),
  };
}

function useSays({ target, atMs, massKg }: UseRecord): Message {
  return message('lineage.use', {
    target: target === 'given-away' ? 'given' : target,
    usedDayMs: atMs,
    isWeighed: massKg !== null,
    usedKg: massKg ?? 0,
  });
}

function lotSays({ facts }: LotRecord): Message {
  if (facts.kind === 'starter') {
    return message('lineage.starter', {
      isPlaceKnown: facts.collectedPlace !== undefined,
      placeName: facts.collectedPlace ?? '',
      isDayKnown: facts.collectedAt !== undefined,
      collectedDayMs: facts.collectedAt ?? 0,
    });
  }
  return message('lineage.material', {
    materialPart: lotMaterial(facts.material),
    isSupplierKnown: facts.supplier !== undefined,
    supplierName: facts.supplier ?? '',
    isNumbered: facts.lotNumber !== undefined,
    numberName: facts.lotNumber ?? '',
    organic: organicChoice[facts.organic],
  });
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
