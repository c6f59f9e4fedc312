/** Paper: headings, paragraphs and tables that go on over as many pages as they need. */
import PDFDocument from 'pdfkit';
import { PaperFonts, type Weight } from './paper-fonts.ts';

export const ink = '#14201a';
export const softInk = '#3f4d45';
const rule = '#b3bfb7';
const shade = '#edf2ee';

/** A4 [pt]. */
const margin = 48;
const footHeight = 40;

export interface Column {
  readonly heading: string;
  /** Share of the width. */
  readonly share: number;
}

export interface SheetFacts {
  readonly title: string;
  readonly drawnUpAt: Date;
  readonly foot: string;
  /** BCP 47. */
  readonly language: string;
  /** @example (1, 3) => "page 1 of 3" */
  readonly page: (number: number, of: number) => string;
}

export class Sheet {
  readonly doc: PDFKit.PDFDocument;
  readonly #foot: string;
  readonly #page: SheetFacts['page'];
  readonly #fonts: PaperFonts;
  #lacked = false;

  constructor({ title, drawnUpAt, foot, language, page }: SheetFacts) {
    this.doc = new PDFDocument({
      size: 'A4',
      margins: { top: margin, bottom: margin + footHeight, left: margin, right: margin },
      bufferPages: true,
      lang: language,
      displayTitle: true,
      info: { Title: title, Creator: 'Branhearth', CreationDate: drawnUpAt, ModDate: drawnUpAt },
    });
    this.#fonts = new PaperFonts(this.doc, language);
    this.#foot = foot;
    this.#page = page;
    this.doc.fillColor(ink);
  }

  /** Whether some sign had to be drawn as an empty box. */
  get lacked(): boolean {
    return this.#lacked;
  }

  get left(): number {
    return margin;
  }

  get width(): number {
    return this.doc.page.width - 2 * margin;
  }

  /** What is left of the page [pt]. */
  get room(): number {
    return this.doc.page.height - margin - footHeight - this.doc.y;
  }

  /** Goes on to the next page unless so much fits on this one. */
  need(height: number): void {
    if (this.room < height) this.doc.addPage();
  }

  title(text: string): void {
    this.doc.fontSize(20).fillColor(ink);
    this.write(text, this.left, this.doc.y, { width: this.width }, 'bold');
    this.doc.moveDown(0.2);
  }

  /** Never alone at the foot of a page: the first rows of what follows fit beneath it, or so much of it. */
  heading(text: string, followsPt = 120): void {
    this.need(followsPt);
    this.doc.moveDown(0.9);
    this.doc.fontSize(12.5).fillColor(ink);
    this.write(text, this.left, this.doc.y, { width: this.width }, 'bold');
    this.doc.moveDown(0.25);
  }

  paragraph(text: string, { soft = false, strong = false, size = 9.5 } = {}): void {
    this.doc.fontSize(size).fillColor(soft ? softInk : ink);
    this.write(text, this.left, this.doc.y, { width: this.width, lineGap: 1.5 }, strong ? 'bold' : 'plain');
    this.doc.moveDown(0.25);
  }

  list(items: readonly string[], size = 9.5): void {
    for (const item of items) this.paragraph(`•  ${item}`, { size });
  }

  /** A frame with a notice in it. */
  notice(lines: readonly string[]): void {
    const inner = this.width - 20;
    this.doc.fontSize(9.5);
    const said = lines.join('\n');
    const text = this.#dress(said, 'bold').text;
    const height = this.doc.heightOfString(text, { width: inner, lineGap: 2 }) + 14;
    this.need(height + 8);
    const { y } = this.doc;
    this.doc.roundedRect(this.left, y, this.width, height, 4).fillAndStroke(shade, rule);
    this.doc.fillColor(ink);
    this.write(said, this.left + 10, y + 7, { width: inner, lineGap: 2 }, 'bold');
    this.doc.y = y + height + 8;
  }

  /** Rows keep together; the headings are written again on each page. */
  table(columns: readonly Column[], rows: readonly (readonly string[])[], size = 8.5): void {
    const whole = columns.reduce((sum, { share }) => sum + share, 0);
    const widths = columns.map(({ share }) => (share / whole) * this.width);
    const headings = columns.map(({ heading }) => heading);
    this.need(60);
    this.#row(headings, widths, size, 'bold');
    for (const row of rows) {
      this.doc.fontSize(size);
      if (this.room < this.#rowHeight(row, widths, 'plain')) {
        this.doc.addPage();
        this.#row(headings, widths, size, 'bold');
      }
      this.#row(row, widths, size, 'plain');
    }
    this.doc.moveDown(0.4);
  }

  #rowHeight(cells: readonly string[], widths: readonly number[], weight: Weight): number {
    const heights = cells.map((cell, i) =>
      this.doc.heightOfString(this.#dress(cell, weight).text || ' ', { width: (widths[i] ?? 50) - 8 }),
    );
    // One that is taller than a page could never be placed: pages are at least this high.
    return Math.min(Math.max(...heights) + 6, 640);
  }

  #row(cells: readonly string[], widths: readonly number[], size: number, weight: Weight): void {
    this.doc.fontSize(size);
    const height = this.#rowHeight(cells, widths, weight);
    const { y } = this.doc;
    if (weight === 'bold') this.doc.rect(this.left, y, this.width, height).fill(shade);
    let x = this.left;
    cells.forEach((cell, i) => {
      const width = widths[i] ?? 50;
      this.doc.fillColor(ink);
      this.write(cell, x + 4, y + 3, { width: width - 8, height: height - 3, ellipsis: '…' }, weight);
      x += width;
    });
    this.doc
      .moveTo(this.left, y + height)
      .lineTo(this.left + this.width, y + height)
      .lineWidth(0.5)
      .stroke(rule);
    this.doc.x = this.left;
    this.doc.y = y + height;
  }

  /** A text in a font that has its signs, in the colour and size that are set. */
  write(text: string, x: number, y: number, options: PDFKit.Mixins.TextOptions, weight: Weight = 'plain'): void {
    this.doc.text(this.#dress(text, weight).text, x, y, options);
  }

  /** In the size that is set [pt]. */
  widthOf(text: string): number {
    return this.doc.widthOfString(this.#dress(text, 'plain').text);
  }

  #dress(text: string, weight: Weight) {
    const dressed = this.#fonts.dress(text, weight);
    this.#lacked ||= dressed.lacked;
    return dressed;
  }

  /** Numbers the pages and gives the file. */
  async finish(): Promise<Buffer> {
    const { start, count } = this.doc.bufferedPageRange();
    for (let page = 0; page < count; page++) {
      this.doc.switchToPage(start + page);
      // The foot stands below the bottom margin, where text would else start a new page.
      this.doc.page.margins.bottom = 0;
      this.doc.fontSize(7.5).fillColor(softInk);
      const number = this.#page(page + 1, count);
      const y = this.doc.page.height - margin - 8;
      const height = this.doc.currentLineHeight();
      this.write(number, this.left, y, { width: this.width, align: 'right', height });
      const room = this.width - this.doc.widthOfString(number) - 12;
      this.write(this.#foot, this.left, y, { width: room, height, ellipsis: '…' });
    }
    const chunks: Buffer[] = [];
    const done = new Promise<Buffer>((resolve, reject) => {
      this.doc.on('data', (chunk: Buffer) => chunks.push(chunk));
      this.doc.on('end', () => resolve(Buffer.concat(chunks)));
      this.doc.on('error', reject);
    });
    this.doc.end();
    return done;
  }
}
