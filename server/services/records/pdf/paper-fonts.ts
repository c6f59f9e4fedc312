/** Which font a text on paper is set in: one that has its signs, that of the language first. */
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

/** What reads the same where a font lacks the sign. */
const standIns: Readonly<Record<string, string>> = { '₂': '2', '²': '2', '³': '3', '～': '〜', '≤': '<', '≥': '>' };

export interface Dressed {
  /** In signs that the font has; what none of them has is an empty box. */
  readonly text: string;
  readonly lacked: boolean;
  /** The font is to be made bold by a line around each sign. */
  readonly isDrawnBold: boolean;
}

export class PaperFonts {
  readonly #doc: PDFKit.PDFDocument;
  readonly #order: readonly FontName[];
  readonly #registered = new Set<string>();

  /** @param language BCP 47, of the paper. */
  constructor(doc: PDFKit.PDFDocument, language: string) {
    this.#doc = doc;
    const [first = ''] = language.split('-');
    const all = Object.keys(fonts) as FontName[];
    this.#order = all.sort((one, other) => Number(other === first) - Number(one === first));
  }

  /** Sets the font of what is drawn next. */
  dress(text: string, weight: Weight): Dressed {
    let best: { readonly name: FontName; readonly known: Known } | undefined;
    for (const name of this.#order) {
      this.#set(name, weight);
      const known = knownIn(text, this.#has);
      if (best === undefined || known.lacked < best.known.lacked) best = { name, known };
      if (known.lacked === 0) break;
    }
    if (best === undefined) throw new Error('Cannot set a text as there is no font');
    this.#set(best.name, weight);
    const isDrawnBold = weight === 'bold' && !('bold' in fonts[best.name]);
    return { text: breakable(best.known.text), lacked: best.known.lacked > 0, isDrawnBold };
  }

  #set(name: FontName, weight: Weight): void {
    const font: PaperFont = fonts[name];
    const file = (weight === 'bold' ? font.bold : undefined) ?? font.plain;
    if (!this.#registered.has(file)) this.#doc.registerFont(file, unpackWoff(readFileSync(file)));
    this.#registered.add(file);
    this.#doc.font(file);
  }

  readonly #has = (code: number): boolean =>
    (
      this.#doc as unknown as { _font: { font: { hasGlyphForCodePoint(code: number): boolean } } }
    )._font.font.hasGlyphForCodePoint(code);
}

interface Known {
  readonly text: string;
  readonly lacked: number;
}

/** Text in the signs that a font has; line breaks stay, other controls go. */
function knownIn(text: string, has: (code: number) => boolean): Known {
  let known = '';
  let lacked = 0;
  for (const sign of text.replaceAll('\t', ' ')) {
    const code = sign.codePointAt(0) ?? 0;
    if (sign !== '\n' && (code < 32 || (code >= 0x7f && code < 0xa0))) continue;
    const shown = sign === '\n' || has(code) ? sign : standIns[sign];
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
