/** The record on paper in a made-up language, whose every text stands in brackets: what stands outside of them was written by people. */
import PDFDocument from 'pdfkit';
import { afterAll, beforeAll, expect, test, vi } from 'vitest';
import { recordPdf } from '../../../server/services/records/pdf/record-pdf.ts';
import { type BatchRecordSheet, batchRecordSchema } from '../../../shared/contracts/records.ts';
import { readTexts } from '../../../shared/messages/catalogues.ts';
import { plainReader } from '../../../shared/messages/format.ts';
import { type Farm, openFarm } from '../journal/farm.ts';
import { tellBatch } from './recorded-batch.ts';

vi.mock('../../../shared/messages/made/languages.ts', () => ({ languages: ['en', 'de'] }));
vi.mock('../../../shared/messages/catalogues.ts', async (original) => {
  const { readTexts: read } = await original<typeof import('../../../shared/messages/catalogues.ts')>();
  const bracketed = () => Object.fromEntries(Object.entries(read('en')).map(([code, text]) => [code, `⟦${text}⟧`]));
  return { readTexts: (language: string) => (language === 'de' ? bracketed() : read(language)) };
});

let farm: Farm;
let record: BatchRecordSheet;
beforeAll(async () => {
  farm = await openFarm();
  const { id } = await tellBatch(farm);
  record = batchRecordSchema.parse((await farm.get(`/api/batches/${id}/record`)).json());
});
afterAll(() => farm.close());

/** Everything that is drawn, but for numbers, signs and single letters. */
async function drawn(language: string): Promise<string[]> {
  const texts: string[] = [];
  const { text: draw } = PDFDocument.prototype;
  const spy = vi.spyOn(PDFDocument.prototype, 'text').mockImplementation(function (this: typeof draw, ...args) {
    texts.push(String(args[0]));
    return draw.apply(this as never, args as never);
  });
  await recordPdf(record, { ...plainReader(0), language });
  spy.mockRestore();
  return texts.filter((text) => /\p{L}{2}/u.test(text));
}

function outsideBrackets(text: string): string {
  const without = text.replace(/⟦[^⟦⟧]*⟧/g, '');
  return without === text ? text : outsideBrackets(without);
}

/** Places, lots, people and notes, as they were written down. */
const written = () => JSON.stringify([record.batch, record.lots, record.entries, record.siteName]);

test('every text of the record is in the language of whoever asks', async () => {
  const texts = await drawn('de');
  expect(texts.length).toBeGreaterThan(60);
  const foreign = texts
    .map(outsideBrackets)
    .flatMap((text) => text.split(/[\n,;(“”)•·]+/).map((part) => part.trim()))
    .filter(
      (part) => /\p{L}{2}/u.test(part) && !part.includes('□') && !written().includes(part.replaceAll('"', '\\"')),
    );
  expect(foreign).toEqual([]);
});

test('in English the record says what the catalogue says, and no code', async () => {
  const texts = (await drawn('en')).join('\n');
  expect(texts).toMatch(/Bran stage, laid \d+ \w+ \d{4}, \d\d:\d\d on .*; still lying there/);
  expect(texts).toMatch(/What composting rules ask, and what was measured here/);
  expect(texts).toMatch(/page 1 of \d/);
  expect(texts).not.toMatch(/\brecord\.[a-z]/);
  expect(Object.keys(readTexts('en')).filter((code) => texts.includes(code))).toEqual([]);
});
