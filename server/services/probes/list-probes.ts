/**
 * The probes that answer to a question, a page of them.
 */
import { compareNames } from '../../../shared/compare-names.ts';
import { type ProbesAnswer, type ProbesQuestion, probesOfAnAnswer } from '../../../shared/contracts/probes.ts';
import { holdsWords, typedWords } from '../../../shared/find-words.ts';
import { positions } from '../../../shared/names.ts';
import type { Journal } from '../../../shared/store/journal.ts';
import { type KnownProbe, type ProbeBook, probeView } from './probe-book.ts';

/** What people call piles and sites, by their ids. */
export interface ProbeNames {
  readonly piles: ReadonlyMap<string, string>;
  readonly sites: ReadonlyMap<string, string>;
}

const noNames: ProbeNames = { piles: new Map(), sites: new Map() };

export async function readProbeNames({ piles, sites }: Pick<Journal, 'piles' | 'sites'>): Promise<ProbeNames> {
  const byId = (all: readonly { readonly id: string; readonly name: string }[]) =>
    new Map(all.map(({ id, name }) => [id, name]));
  const [allPiles, allSites] = await Promise.all([piles.list(), sites.list()]);
  return { piles: byId(allPiles), sites: byId(allSites) };
}

/** @param names Left out, ids stand for them. */
export function listProbes(book: ProbeBook, question: ProbesQuestion, names = noNames): ProbesAnswer {
  const { order = 'name', offset = 0, limit = probesOfAnAnswer } = question;
  const found = findProbes(book, question, names).sort(ordersBy(names)[order]);
  return {
    probes: found.slice(offset, offset + limit).map(probeView),
    total: found.length,
    offset,
    counts: book.counts,
  };
}

/** All of them, in no order. */
export function findProbes(
  book: ProbeBook,
  { claimed, site, find = '' }: Pick<ProbesQuestion, 'claimed' | 'site' | 'find'>,
  names = noNames,
): KnownProbe[] {
  const typed = find.trim().toLowerCase();
  const words = typedWords(find);
  return [...book.all()].filter((known) => {
    if (claimed !== undefined && (known.claim !== null) !== (claimed === 'yes')) return false;
    if (site !== undefined && known.site !== site) return false;
    // Whoever forgets what was found is to forget by its own name alone.
    if (known.claim === null) return `${known.site}/${known.probe}`.includes(typed);
    return holdsWords(wordsOf(known, names), words);
  });
}

/** All that one can be found by that serves a pile. */
function wordsOf({ site, probe, claim, device }: KnownProbe, { piles, sites }: ProbeNames): string {
  const pileId = claim?.pileId ?? '';
  return [`${site}/${probe}`, sites.get(site), pileId, piles.get(pileId), device?.label].filter(Boolean).join(' ');
}

type Order = (one: KnownProbe, other: KnownProbe) => number;

/** Names are of a-z 0-9 - _ alone, so that comparing them as they are is an order that people know. */
const byText = (one: string, other: string) => (one === other ? 0 : one < other ? -1 : 1);

const byName: Order = (one, other) => byText(one.site, other.site) || byText(one.probe, other.probe);

function ordersBy({ piles, sites }: ProbeNames): Record<NonNullable<ProbesQuestion['order']>, Order> {
  const siteOf = ({ site }: KnownProbe) => sites.get(site) ?? site;
  const pileOf = ({ claim }: KnownProbe) => piles.get(claim?.pileId ?? '') ?? claim?.pileId ?? '';
  return {
    // Whoever asks without a word wants those that serve a pile first, however many strangers talk.
    name: (one, other) => Number(one.claim === null) - Number(other.claim === null) || byName(one, other),
    newest: (one, other) => (other.lastAtMs ?? 0) - (one.lastAtMs ?? 0) || byName(one, other),
    pile: (one, other) =>
      compareNames(siteOf(one), siteOf(other)) ||
      compareNames(pileOf(one), pileOf(other)) ||
      byText(one.claim?.pileId ?? '', other.claim?.pileId ?? '') ||
      place(one) - place(other) ||
      byName(one, other),
  };
}

const place = ({ claim }: KnownProbe) => (claim ? positions.indexOf(claim.position) : -1);
