/**
 * The probes that answer to a question, a page of them.
 */
import { type ProbesAnswer, type ProbesQuestion, probesOfAnAnswer } from '../../../shared/contracts/probes.ts';
import { positions } from '../../../shared/names.ts';
import { type KnownProbe, type ProbeBook, probeView } from './probe-book.ts';

export function listProbes(book: ProbeBook, question: ProbesQuestion): ProbesAnswer {
  const { order = 'name', offset = 0, limit = probesOfAnAnswer } = question;
  const found = findProbes(book, question).sort(orders[order]);
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
): KnownProbe[] {
  const typed = find.trim().toLowerCase();
  return [...book.all()].filter((known) => {
    if (claimed !== undefined && (known.claim !== null) !== (claimed === 'yes')) return false;
    if (site !== undefined && known.site !== site) return false;
    return (
      typed === '' || `${known.site}/${known.probe}`.includes(typed) || known.claim?.pileId.includes(typed) === true
    );
  });
}

type Order = (one: KnownProbe, other: KnownProbe) => number;

/** Names are of a-z 0-9 - _ alone, so that comparing them as they are is an order that people know. */
const byText = (one: string, other: string) => (one === other ? 0 : one < other ? -1 : 1);

const byName: Order = (one, other) => byText(one.site, other.site) || byText(one.probe, other.probe);

const orders: Record<NonNullable<ProbesQuestion['order']>, Order> = {
  // Whoever asks without a word wants those that serve a pile first, however many strangers talk.
  name: (one, other) => Number(one.claim === null) - Number(other.claim === null) || byName(one, other),
  newest: (one, other) => (other.lastAtMs ?? 0) - (one.lastAtMs ?? 0) || byName(one, other),
  pile: (one, other) =>
    byText(one.claim?.pileId ?? '', other.claim?.pileId ?? '') || place(one) - place(other) || byName(one, other),
};

const place = ({ claim }: KnownProbe) => (claim ? positions.indexOf(claim.position) : -1);
