/** The record on paper in languages of other scripts: signs that the fonts have, and lines that end within their column. */
import { writeFileSync } from 'node:fs';
import PDFDocument from 'pdfkit';
import { afterAll, beforeAll, expect, test, vi } from 'vitest';
import { recordPdf } from '../../../server/services/records/pdf/record-pdf.ts';
import { type BatchRecordSheet, batchRecordSchema } from '../../../shared/contracts/records.ts';
import { plainReader } from '../../../shared/messages/format.ts';
import { type Farm, openFarm } from '../journal/farm.ts';
import { tellBatch } from './recorded-batch.ts';

let farm: Farm;
let record: BatchRecordSheet;
beforeAll(async () => {
  farm = await openFarm();
  const { id } = await tellBatch(farm);
  record = batchRecordSchema.parse((await farm.get(`/api/batches/${id}/record`)).json());
});
afterAll(() => farm.close());

interface Line {
  readonly text: string;
  readonly fontName: string;
  /** How far it goes beyond its column [pt]. */
  readonly beyondPt: number;
}

/** What pdfkit draws line by line. */
async function drawn(language: string, of = record): Promise<{ readonly lines: Line[]; readonly pdf: Buffer }> {
  const lines: Line[] = [];
  const inner = PDFDocument.prototype as unknown as { _fragment: (...args: unknown[]) => unknown };
  const draw = inner._fragment;
  const spy = vi.spyOn(inner, '_fragment').mockImplementation(function (this: PDFKit.PDFDocument, ...args: unknown[]) {
    const [text, , , options] = args as [string, number, number, { lineWidth?: number }];
    const width = this.widthOfString(text.trimEnd());
    const { name: fontName } = (this as unknown as { _font: { name: string } })._font;
    lines.push({ text, fontName, beyondPt: width - (options.lineWidth ?? width) });
    return draw.apply(this, args);
  });
  const pdf = await recordPdf(of, { ...plainReader(0), language });
  spy.mockRestore();
  return { lines, pdf };
}

const scripts = {
  ja: /[\p{Script=Hiragana}\p{Script=Han}]/u,
  ko: /\p{Script=Hangul}/u,
  th: /\p{Script=Thai}/u,
} as const;

test('a name in other letters stands in their font, the rest of its line in that of the language', async () => {
  const { lines } = await drawn('en', { ...record, siteName: 'Farm of 김하늘 and สมชาย' });
  const pieces = lines.map(({ text, fontName }) => [text, fontName]);
  const begin = pieces.findIndex(([text]) => text?.endsWith('Farm of '));
  expect(pieces.slice(begin, begin + 4)).toEqual([
    [expect.any(String), 'DejaVuSans'],
    ['김하늘', expect.stringContaining('NotoSansKR')],
    [' and ', 'DejaVuSans'],
    [expect.stringMatching(/^ส/), expect.stringContaining('NotoSansThai')],
  ]);
});

test.each(Object.entries(scripts))(
  'in %s every sign is there, and no line runs out of its column',
  async (language, script) => {
    const { lines, pdf } = await drawn(language);
    expect(lines.filter(({ text }) => script.test(text)).length).toBeGreaterThan(60);
    // Also what the batch's people wrote in Korean, Greek, Russian and signs of sums in one sentence.
    expect(lines.filter(({ text }) => text.includes('□'))).toEqual([]);
    expect(lines.map(({ text }) => text).join('')).toMatch(/한국어 메모, ελληνικά, кириллица, ≥\s50/);
    expect(lines.filter(({ beyondPt }) => beyondPt > 0.5)).toEqual([]);
    const keep = process.env.BRANHEARTH_TEST_KEEP;
    if (keep) writeFileSync(`${keep}/record-${language}.pdf`, pdf);
  },
);
