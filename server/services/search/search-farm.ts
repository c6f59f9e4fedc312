/** Piles, batches, entries of the journal and probes by words; what is typed and read stays as it is, nothing is kept. */
import { entryMessage } from '../../../core/records/entry-message.ts';
import { Breaks } from '../../../shared/breaks.ts';
import { compareNames } from '../../../shared/compare-names.ts';
import { mostEntriesSearched, mostFound, type SearchAnswer } from '../../../shared/contracts/search.ts';
import { toInstant } from '../../../shared/contracts/time.ts';
import { holdsWords, typedWords } from '../../../shared/find-words.ts';
import { grouped } from '../../../shared/grouped.ts';
import type { Reader } from '../../../shared/messages/format.ts';
import { inWords } from '../../../shared/messages/in-words.ts';
import { render } from '../../../shared/messages/render.ts';
import type { BatchRecord, EntryRecord, Journal } from '../../../shared/store/journal.ts';
import { allEntries } from '../../pile/all-entries.ts';
import { batchAt } from '../journal/batch-at.ts';
import { batchName, batchView, type Family, readFamily } from '../lineage/family.ts';
import { findProbes, type ProbeNames, readProbeNames } from '../probes/list-probes.ts';
import type { ProbeBook } from '../probes/probe-book.ts';
import { excerptOf } from './excerpt.ts';

interface SearchParts {
  readonly journal: Journal;
  readonly probes: ProbeBook;
}

/** What every part of the search needs. */
interface Search {
  readonly words: readonly string[];
  /** In whose words findings are read, and so looked for. */
  readonly reader: Reader;
  readonly family: Family;
  readonly names: ProbeNames;
}

const none = { count: 0, found: [] };

export async function searchFarm(parts: SearchParts, find: string, reader: Reader): Promise<SearchAnswer> {
  const words = typedWords(find);
  if (words.length === 0) return { piles: none, batches: none, entries: none, probes: none, isWhole: true };
  const [family, names] = await Promise.all([readFamily(parts.journal), readProbeNames(parts.journal)]);
  const search = { words, reader, family, names };
  const { isWhole, ...entries } = await findEntries(parts.journal, search);
  return {
    piles: findPiles(search),
    batches: findBatches(search),
    entries,
    probes: probesFound(parts.probes, find, names),
    isWhole,
  };
}

function placeOf({ family, names }: Search, pileId: string) {
  const pile = family.piles.get(pileId);
  const siteId = pile?.siteId ?? '';
  return { pileId, pileName: pile?.name ?? pileId, siteName: names.sites.get(siteId) ?? siteId };
}

function findPiles(search: Search): SearchAnswer['piles'] {
  const all = [...search.family.piles.values()]
    .map(({ id, name }) => ({ id, name, siteName: placeOf(search, id).siteName }))
    .filter(({ name, siteName }) => holdsWords(`${name} ${siteName}`, search.words));
  // Those that are called so before those that only lie at a site of that name.
  const byOwnName = (one: { name: string }) => Number(!holdsWords(one.name, search.words));
  all.sort((a, b) => byOwnName(a) - byOwnName(b) || compareNames(a.name, b.name));
  return { count: all.length, found: all.slice(0, mostFound) };
}

function findBatches(search: Search): SearchAnswer['batches'] {
  const { words, reader, family } = search;
  const all = [...family.batches.values()]
    .sort((a, b) => b.startedAtMs - a.startedAtMs)
    .flatMap((batch) => {
      const { pileName, siteName } = placeOf(search, batch.pileId);
      const place = `${render(batchName(family, batch), reader)} ${pileName} ${siteName}`;
      const written = writtenOf(search, batch);
      return holdsWords(`${place} ${written}`, words) ? [{ batch, written, isByPlace: holdsWords(place, words) }] : [];
    });
  const shown = all.slice(0, mostFound).map(({ batch, written, isByPlace }) => {
    const { id, name, messages, stage, startedAt, endedAt } = batchView(family, batch);
    return {
      ...{ id, name, stage, startedAt, endedAt, ...(messages && { messages }) },
      ...placeOf(search, batch.pileId),
      excerpt: isByPlace ? null : excerptOf(written, words),
    };
  });
  return { count: all.length, found: shown };
}

/** How it came out, in people's words. */
function writtenOf({ family }: Search, { id, outcome }: BatchRecord): string {
  return [outcome, family.stories.get(id)?.reason, family.verdicts.get(id)?.note].filter(Boolean).join(' ');
}

async function findEntries(
  journal: Journal,
  search: Search,
): Promise<SearchAnswer['entries'] & Pick<SearchAnswer, 'isWhole'>> {
  const batches = grouped(search.family.batches.values(), ({ pileId }) => pileId);
  const breaks = new Breaks();
  const found: SearchAnswer['entries']['found'] = [];
  let [read, count] = [0, 0];
  for await (const entry of allEntries(journal, {})) {
    if (read >= mostEntriesSearched) return { count, found, isWhole: false };
    read += 1;
    const view = entryFound(search, entry, batches.get(entry.pileId) ?? []);
    if (view) {
      count += 1;
      if (found.length < mostFound) found.push(view);
    }
    await breaks.take();
  }
  return { count, found, isWhole: true };
}

function entryFound(
  search: Search,
  entry: EntryRecord,
  batches: readonly BatchRecord[],
): SearchAnswer['entries']['found'][number] | undefined {
  const { words, reader } = search;
  const says = entryMessage(entry.what, batchAt(batches, entry.pileId, entry.atMs)?.stage);
  const place = placeOf(search, entry.pileId);
  const text = [render(says, reader), entry.note, entry.by, place.pileName].filter(Boolean).join(' ');
  if (!holdsWords(text, words)) return undefined;
  return {
    id: entry.entryId,
    ...place,
    at: toInstant(entry.atMs),
    by: entry.by,
    ...inWords({ says }, 0),
    excerpt: entry.note === null ? null : excerptOf(entry.note, words),
  };
}

function probesFound(book: ProbeBook, find: string, names: ProbeNames): SearchAnswer['probes'] {
  const all = findProbes(book, { find }, names).sort(
    (a, b) => Number(a.claim === null) - Number(b.claim === null) || a.probe.localeCompare(b.probe, 'en'),
  );
  const found = all.slice(0, mostFound).map(({ site, probe, device, claim }) => ({
    site,
    siteName: names.sites.get(site) ?? site,
    probe,
    deviceLabel: device?.label ?? null,
    claim: claim && {
      pileId: claim.pileId,
      pileName: names.piles.get(claim.pileId) ?? claim.pileId,
      position: claim.position,
    },
  }));
  return { count: all.length, found };
}
