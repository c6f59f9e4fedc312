/**
 * What was measured by hand, brought from the journal into the readings store. The journal has the last word: whatever a
 * crash kept from the readings is brought there by the next entry, or as the pile is opened.
 */
import type { EntryFacts } from '../../shared/entry.ts';
import { handProbe, handSeries } from '../../shared/hand-series.ts';
import type { Reading } from '../../shared/reading.ts';
import type { ClaimRecord, EntryRecord, Journal } from '../../shared/store/journal.ts';
import type { ReadingsStore } from '../../shared/store/readings-store.ts';
import { allEntries } from './all-entries.ts';

/** Of readings that are read at once. */
const pageRows = 1000;

export interface HandParts {
  readonly journal: Pick<Journal, 'entries' | 'claims'>;
  readonly readings: Pick<ReadingsStore, 'append' | 'rows' | 'forget' | 'cannotForget'>;
}

type Measured = Extract<EntryFacts, { kind: 'measured' }>;

export function isMeasured(what: EntryFacts): what is Measured {
  return what.kind === 'measured';
}

/**
 * Keeps all that was ever measured by hand at a pile; what is kept already stays as it is.
 * @param corrected Something was corrected or struck out: what stood before is forgotten.
 * @throws {StoreError} when it is not kept; to be tried again.
 */
export async function keepHandReadings(parts: HandParts, pileId: string, corrected = false): Promise<void> {
  const claims = await parts.journal.claims.list();
  await keepHandReadingsOf(parts, claims, pileId);
  if (corrected) for (const claim of handClaims(claims, pileId)) await forgetEditionBefore(parts.readings, claim);
}

/** The same where its claims are known. */
export async function keepHandReadingsOf(
  { journal, readings }: HandParts,
  claims: readonly ClaimRecord[],
  pileId: string,
): Promise<void> {
  const ofHand = handClaims(claims, pileId);
  if (ofHand.length === 0) return;
  const entries = await allMeasured(journal, pileId);
  const wanted = ofHand.flatMap((claim) => readingsOf(claim, entries));
  const missing = await notKept(readings, wanted);
  if (missing.length > 0) await readings.append(missing);
}

/** Asked for by one question: what is appended late is asked for one by one. */
async function notKept(readings: HandParts['readings'], wanted: readonly Reading[]): Promise<Reading[]> {
  const series = new Map(
    wanted.map(({ site, probe, quantity }) => [`${probe} ${quantity}`, { site, probe, quantity }]),
  );
  const toMs = wanted.reduce((latest, { atMs }) => Math.max(latest, atMs), 0) + 1;
  const kept = new Set<string>();
  for (let nextMs = 0; nextMs < toMs; ) {
    const rows = await readings.rows([...series.values()], nextMs, toMs, pageRows);
    const last = rows.at(-1);
    if (!last) break;
    for (const row of rows) kept.add(keyOf(row));
    nextMs = last.atMs + 1;
  }
  return wanted.filter((reading) => !kept.has(keyOf(reading)));
}

const keyOf = ({ probe, quantity, atMs }: Reading) => `${probe} ${quantity} ${atMs}`;

function handClaims(claims: readonly ClaimRecord[], pileId: string): ClaimRecord[] {
  return claims.filter((claim) => claim.pileId === pileId && handSeries(claim.probe) !== undefined);
}

/** As they stand now, oldest first. */
async function allMeasured(journal: HandParts['journal'], pileId: string): Promise<EntryRecord[]> {
  const all: EntryRecord[] = [];
  for await (const entry of allEntries(journal, { pileId, kinds: ['measured'] })) all.push(entry);
  return all.sort(byTime);
}

const byTime = (one: EntryRecord, other: EntryRecord) =>
  one.atMs - other.atMs || one.recordedAtMs - other.recordedAtMs || (one.entryId < other.entryId ? -1 : 1);

/** Whoever writes down two in one minute means both: the later one is kept a millisecond later, as a store keeps one of a time. */
function readingsOf({ site, probe, position }: ClaimRecord, entries: readonly EntryRecord[]): Reading[] {
  let lastMs = Number.NEGATIVE_INFINITY;
  return entries.flatMap(({ atMs, what }) => {
    if (!isMeasured(what) || what.position !== position) return [];
    lastMs = Math.max(atMs, lastMs + 1);
    const one = { site, probe, atMs: lastMs };
    const temperature: Reading = { ...one, quantity: 'temperature', value: what.temperatureC };
    return what.moisturePct === undefined
      ? [temperature]
      : [temperature, { ...one, quantity: 'moisture', value: what.moisturePct }];
  });
}

/** Nobody names it any more; where a database takes no rows away it stays there unnamed. */
async function forgetEditionBefore(readings: HandParts['readings'], { site, probe }: ClaimRecord): Promise<void> {
  const series = handSeries(probe);
  if (series === undefined || series.edition < 2 || readings.cannotForget !== undefined) return;
  const before = handProbe(series.pileId, series.position, series.edition - 1);
  await readings.forget([{ site, probe: before }]);
}
