/** The part of the journal's contract about entries, their versions and photos. */
import { describe, expect, test } from 'vitest';
import type { EntryRecord, Journal } from '../../../shared/store/journal.ts';
import {
  beginMs,
  branBatch,
  branPile,
  hourMs,
  judged,
  skinPhoto,
  smelt,
  smeltAgain,
  soilBatch,
  soilPile,
  turned,
  watered,
} from './journal-sample.ts';

export interface FarmTests {
  readonly withFarm: (run: (journal: Journal) => Promise<void>) => Promise<void>;
  readonly conflict: (attempt: Promise<unknown>, pointer: string) => Promise<void>;
}

const all = { limit: 500 };

export function entriesContract({ withFarm, conflict }: FarmTests): void {
  describe('entries', () => {
    test('sent again change nothing, and with other content are refused', () =>
      withFarm(async (journal) => {
        await journal.photos.add(skinPhoto);
        expect(await journal.entries.add(smelt)).toBe('kept');
        expect(await journal.entries.add(smelt)).toBe('known');
        expect(await journal.entries.add({ ...smelt, recordedAtMs: smelt.recordedAtMs + 1 })).toBe('known');
        for (const other of [
          { ...smelt, pileId: soilPile.id },
          { ...smelt, atMs: smelt.atMs + 1 },
          { ...smelt, note: null },
          { ...smelt, what: { kind: 'turned' } as const },
        ]) {
          await conflict(journal.entries.add(other), '/id');
        }
        expect(await journal.entries.list(all)).toEqual([smelt]);
      }));

    test('without a time of their own may be sent again later', () =>
      withFarm(async (journal) => {
        const note = { ...smelt, photoIds: [], atMs: beginMs, recordedAtMs: beginMs };
        expect(await journal.entries.add(note)).toBe('kept');
        expect(await journal.entries.add({ ...note, atMs: beginMs + 9, recordedAtMs: beginMs + 9 })).toBe('known');
        expect(await journal.entries.list(all)).toEqual([note]);
      }));

    test('need a pile and their photos', () =>
      withFarm(async (journal) => {
        await conflict(journal.entries.add(smelt), '/photoIds/0');
        await conflict(journal.entries.add({ ...smelt, photoIds: [], pileId: 'no-such-pile' }), '/pileId');
        expect(await journal.entries.list(all)).toEqual([]);
      }));

    test('keep every version when corrected, and only the newest can be', () =>
      withFarm(async (journal) => {
        await journal.photos.add(skinPhoto);
        await journal.entries.add(smelt);
        expect(await journal.entries.correct(smeltAgain, smelt.id)).toBe('kept');
        expect(await journal.entries.correct(smeltAgain, smelt.id)).toBe('known');
        await conflict(journal.entries.correct({ ...smeltAgain, id: 'entry-smelt-3' }, smelt.id), '/replaces');
        await conflict(journal.entries.correct({ ...smeltAgain, id: smelt.id }, smeltAgain.id), '/id');
        const struckOut = { ...smeltAgain, id: 'entry-smelt-3', version: 3, reason: null, withdrawn: true };
        expect(await journal.entries.correct({ ...struckOut, version: 77 }, smeltAgain.id)).toBe('kept');
        expect(await journal.entries.versions(smelt.id)).toEqual([smelt, smeltAgain, struckOut]);
        expect(await journal.entries.earlier()).toEqual([smelt, smeltAgain]);
        expect(await journal.entries.list(all)).toEqual([]);
        expect(await journal.entries.list({ ...all, withdrawn: true })).toEqual([struckOut]);
        expect(await journal.entries.versions('no-such-entry')).toEqual([]);
      }));

    test('that are acts are heard as they stand now', () =>
      withFarm(async (journal) => {
        await journal.acts.add(watered);
        await journal.acts.add(turned);
        const [kept] = await journal.entries.versions(watered.id);
        const less: EntryRecord = {
          ...(kept as EntryRecord),
          id: 'act-2-less',
          what: { kind: 'watered', amountL: 3 },
          reason: 'read the can again',
        };
        await journal.entries.correct(less, watered.id);
        expect(await journal.acts.list(branPile.id)).toEqual([turned, { ...watered, amountL: 3 }]);
        await journal.entries.correct({ ...less, id: 'act-2-none', withdrawn: true }, less.id);
        expect(await journal.acts.list(branPile.id)).toEqual([turned]);
      }));

    test('are listed newest first, page by page, by pile, time and kind', () =>
      withFarm(async (journal) => {
        const entry = (index: number): EntryRecord => ({
          ...smelt,
          id: `entry-${100 + index}`,
          entryId: `entry-${100 + index}`,
          photoIds: [],
          pileId: index % 2 ? branPile.id : soilPile.id,
          atMs: beginMs + Math.floor(index / 4) * hourMs, // several at one time
          what: index % 3 ? { kind: 'turned' } : { kind: 'squeeze', feel: 'holds' },
        });
        const kept = Array.from({ length: 20 }, (_, index) => entry(index));
        for (const one of kept) await journal.entries.add(one);
        const newestFirst = kept.toReversed();
        const paged: EntryRecord[] = [];
        for (let after: EntryRecord | undefined; ; after = paged.at(-1)) {
          const page = await journal.entries.list({ limit: 7, ...(after && { after }) });
          if (page.length === 0) break;
          paged.push(...page);
        }
        expect(paged).toEqual(newestFirst);
        const ofPile = await journal.entries.list({ ...all, pileId: branPile.id, kinds: ['squeeze'] });
        expect(ofPile).toEqual(newestFirst.filter((one) => one.pileId === branPile.id && one.what.kind === 'squeeze'));
        const range = { fromMs: beginMs + hourMs, toMs: beginMs + 2 * hourMs };
        expect(await journal.entries.list({ ...all, ...range })).toEqual(kept.slice(4, 8).toReversed());
      }));

    test('a verdict is listed with the batch that it names, whatever lies there by then', () =>
      withFarm(async (journal) => {
        await journal.entries.add({ ...smelt, photoIds: [] });
        expect(await journal.entries.add(judged)).toBe('kept');
        expect(await journal.entries.add(judged)).toBe('known');
        const ofPile = { ...all, pileId: branPile.id };
        const first = { ...ofPile, fromMs: beginMs, toMs: beginMs + 10 * hourMs, batchId: branBatch.id };
        expect((await journal.entries.list(first)).map(({ id }) => id)).toEqual([judged.id, smelt.id]);
        const next = { ...ofPile, fromMs: beginMs + 80 * hourMs, batchId: 'the-next-one' };
        expect(await journal.entries.list(next)).toEqual([]);
        expect(await journal.entries.list({ ...all, kinds: ['verdict'] })).toEqual([judged]);
        const better: EntryRecord = {
          ...judged,
          id: 'entry-judged-2',
          version: 2,
          what: { kind: 'verdict', batchId: branBatch.id, verdict: 'good', why: 'grew-white' },
        };
        expect(await journal.entries.correct(better, judged.id)).toBe('kept');
        expect(await journal.entries.list({ ...all, kinds: ['verdict'] })).toEqual([better]);
      }));

    test('a verdict must be of a batch of its pile, corrected too', () =>
      withFarm(async (journal) => {
        const of = (batchId: string): EntryRecord => ({
          ...judged,
          what: { kind: 'verdict', batchId, verdict: 'good', why: 'smelt-good' },
        });
        await conflict(journal.entries.add(of('no-such-batch')), '/what/batchId');
        await conflict(journal.entries.add(of(soilBatch.id)), '/what/batchId');
        await journal.entries.add(judged);
        const elsewhere = { ...of(soilBatch.id), id: 'entry-judged-2', version: 2 };
        await conflict(journal.entries.correct(elsewhere, judged.id), '/what/batchId');
        expect(await journal.entries.list(all)).toEqual([judged]);
      }));

    test('pictures come back byte for byte, and the first of a digest stays', () =>
      withFarm(async (journal) => {
        const whole = Uint8Array.from({ length: 70_000 }, (_, i) => (i * i) % 256);
        const small = Uint8Array.of(0, 255, 1, 254);
        await journal.pictures.keep('ab', { whole, small });
        await journal.pictures.keep('ab', { whole: small, small: whole });
        expect(Uint8Array.from((await journal.pictures.read('ab', 'whole')) ?? [])).toEqual(whole);
        expect(Uint8Array.from((await journal.pictures.read('ab', 'small')) ?? [])).toEqual(small);
        expect(await journal.pictures.read('cd', 'small')).toBeUndefined();
      }));

    test('photos are known by the file they were made from', () =>
      withFarm(async (journal) => {
        expect(await journal.photos.get(skinPhoto.id)).toBeUndefined();
        expect(await journal.photos.add(skinPhoto)).toBe('kept');
        expect(await journal.photos.add({ ...skinPhoto, keptAtMs: skinPhoto.keptAtMs + 5 })).toBe('known');
        await conflict(journal.photos.add({ ...skinPhoto, digest: 'cd'.repeat(32) }), '/id');
        expect(await journal.photos.get(skinPhoto.id)).toEqual(skinPhoto);
      }));
  });
}
