/** In which font each sign on paper is set: in that of the language, else in the first that has it. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { fileURLToPath } from 'node:url';
import { unpackWoff } from './unpack-woff.ts';

const require = createRequire(import.meta.url);
const dejaVu = (name: string) => require.resolve(`dejavu-fonts-ttf/ttf/${name}.ttf`);
const own = (name: string) => fileURLToPath(new URL(`../../../fonts/${name}`, import.meta.url));

export type Weight = 'plain' | 'bold';

interface PaperFont {
  readonly plain: string;
  /** Without one, signs are drawn with a line around them. */
  readonly bold?: string;
}

/** server/fonts/README.md says where each comes from. */
const fonts = {
  latin: { plain: dejaVu('DejaVuSans'), bold: dejaVu('DejaVuSans-Bold') },
  ja: { plain: own('noto-sans-jp-japanese-400-normal.woff') },
  ko: { plain: own('noto-sans-kr-korean-400-normal.woff') },
  th: { plain: own('NotoSansThai_400Regular.ttf') },
} as const satisfies Record<string, PaperFont>;
type FontName = keyof typeof fonts;

/** What reads the same where no font has the sign. */
const standIns: Readonly<Record<string, string>> = { '₂': '2', '²': '2', '³': '3', '～': '〜', '≤': '<', '≥': '>' };

export interface Dressed {
  /** In signs that some font has; what none of them has is an empty box. */
  readonly text: string;
  readonly lacked: boolean;
}

/** What pdfkit has of a font, and nowhere says. */
interface InnerFont {
  readonly ascender: number;
  readonly font: { hasGlyphForCodePoint(code: number): boolean };
  widthOfString(text: string, sizePt: number, features?: unknown): number;
}

interface InnerDocument {
  _font: InnerFont;
  readonly _fontSize: number;
  readonly _fillColor: [PDFKit.Mixins.ColorValue, number];
  _fragment(text: string, x: number, y: number, options: FragmentOptions): void;
}

interface FragmentOptions {
  readonly lineWidth?: number;
  readonly align?: string;
  readonly [more: string]: unknown;
}

/** Signs of one font. */
interface Run {
  readonly name: FontName;
  text: string;
}

/** Belongs to what stands before it: marks over and under a letter, places where a line may break. */
const isOfBefore = /[\p{M}\u200b]/u;

export class PaperFonts {
  readonly #doc: PDFKit.PDFDocument;
  readonly #inner: InnerDocument;
  readonly #order: readonly FontName[];
  readonly #opened = new Map<string, InnerFont>();
  readonly #fontOf = new Map<string, FontName | undefined>();
  /** By weight: as wide as its signs are, each in its own font. */
  readonly #together = new Map<Weight, InnerFont>();
  #weight: Weight = 'plain';

  /** @param language BCP 47, of the paper. */
  constructor(doc: PDFKit.PDFDocument, language: string) {
    this.#doc = doc;
    this.#inner = doc as unknown as InnerDocument;
    const [first = ''] = language.split('-');
    const all = Object.keys(fonts) as FontName[];
    this.#order = all.sort((one, other) => Number(other === first) - Number(one === first));
    const draw = this.#inner._fragment.bind(doc);
    this.#inner._fragment = (text, x, y, options) => this.#drawLine(draw, text, x, y, options);
  }

  /** Sets the fonts of what is drawn next. */
  dress(text: string, weight: Weight): Dressed {
    this.#weight = weight;
    const known = knownIn(text, (sign) => this.#choose(sign) !== undefined);
    this.#inner._font = this.#allOf(weight);
    return { text: breakable(known.text), lacked: known.lacked > 0 };
  }

  #allOf(weight: Weight): InnerFont {
    const known = this.#together.get(weight);
    if (known !== undefined) return known;
    const widthOfString: InnerFont['widthOfString'] = (text, ...more) =>
      this.#runsOf(text).reduce((sum, run) => sum + this.#open(run.name, weight).widthOfString(run.text, ...more), 0);
    const all: InnerFont = Object.assign(Object.create(this.#open(this.#first, weight)), { widthOfString });
    this.#together.set(weight, all);
    return all;
  }

  get #first(): FontName {
    return this.#order[0] ?? 'latin';
  }

  #open(name: FontName, weight: Weight): InnerFont {
    const font: PaperFont = fonts[name];
    const file = (weight === 'bold' ? font.bold : undefined) ?? font.plain;
    const known = this.#opened.get(file);
    if (known !== undefined) return known;
    // A line may be measured just now, in the fonts that are set.
    const before = this.#inner._font;
    this.#doc.registerFont(file, unpackWoff(readFileSync(file))).font(file);
    const opened = this.#inner._font;
    this.#inner._font = before;
    this.#opened.set(file, opened);
    return opened;
  }

  #choose(sign: string): FontName | undefined {
    if (!this.#fontOf.has(sign)) {
      const code = sign.codePointAt(0) ?? 0;
      const has = (name: FontName) => this.#open(name, 'plain').font.hasGlyphForCodePoint(code);
      this.#fontOf.set(sign, this.#order.find(has));
    }
    return this.#fontOf.get(sign);
  }

  #runsOf(text: string): Run[] {
    const runs: Run[] = [];
    for (const sign of text) {
      const last = runs.at(-1);
      const name = last !== undefined && isOfBefore.test(sign) ? last.name : (this.#choose(sign) ?? this.#first);
      if (last?.name === name) last.text += sign;
      else runs.push({ name, text: sign });
    }
    return runs;
  }

  /** A line as pdfkit has broken it, font by font on one base line. */
  #drawLine(draw: InnerDocument['_fragment'], text: string, x: number, y: number, options: FragmentOptions): void {
    const all = this.#inner._font;
    const weight = this.#weight;
    const sizePt = this.#inner._fontSize;
    const widthOf = ({ name, text: own }: Run) => this.#open(name, weight).widthOfString(own, sizePt);
    const runs = this.#runsOf(text.replaceAll('\n', ''));
    const { lineWidth, align, ...more } = options;
    const left = (lineWidth ?? 0) - all.widthOfString(text.trimEnd(), sizePt);
    let at = x + (align === 'right' ? left : align === 'center' ? left / 2 : 0);
    for (const run of runs) {
      this.#inner._font = this.#open(run.name, weight);
      // Without a bold font, signs are drawn with a line around them.
      const isDrawnBold = weight === 'bold' && !('bold' in fonts[run.name]);
      if (isDrawnBold) this.#doc.lineWidth(0.03 * sizePt).strokeColor(...this.#inner._fillColor);
      draw(run.text, at, y, {
        ...more,
        baseline: (-all.ascender / 1000) * sizePt,
        ...(lineWidth !== undefined && { lineWidth: lineWidth - (at - x) }),
        textWidth: widthOf(run),
        ...(isDrawnBold && { fill: true, stroke: true }),
      });
      at += widthOf(run);
    }
    this.#inner._font = all;
  }
}

interface Known {
  readonly text: string;
  readonly lacked: number;
}

/** Text in signs that there are; line breaks stay, other controls go. */
function knownIn(text: string, has: (sign: string) => boolean): Known {
  let known = '';
  let lacked = 0;
  for (const sign of text.replaceAll('\t', ' ')) {
    const code = sign.codePointAt(0) ?? 0;
    if (sign !== '\n' && (code < 32 || (code >= 0x7f && code < 0xa0))) continue;
    const shown = sign === '\n' || has(sign) ? sign : standIns[sign];
    if (shown === undefined) lacked += 1;
    known += shown ?? '□';
  }
  // A number stays on one line with its unit.
  return { text: known.replace(/(\d) (?=(°[CF]|h|kg|L|cm|m²|g)(?![\p{L}\d]))/gu, '$1\u00a0'), lacked };
}

const thaiWords = new Intl.Segmenter('th', { granularity: 'word' });

/** Thai has no spaces between words: a sign without width stands where a line may break. */
function breakable(text: string): string {
  return text.replace(/\p{Script=Thai}+/gu, (run) =>
    [...thaiWords.segment(run)].map(({ segment }) => segment).join('\u200b'),
  );
}
