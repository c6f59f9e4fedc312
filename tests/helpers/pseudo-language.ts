/**
 * A language that is English between brackets and two fifths longer, for pages built with it: whatever stands outside of brackets is in
 * no catalogue, and what is longer than English must find room.
 */
import { readFileSync } from 'node:fs';
import type { Plugin } from 'vite';
import { compiled } from '../../shared/messages/compiled.mjs';
import type { PageText, TextsOf } from '../../shared/messages/page-text.ts';

/** A private one, whose figures and dates are as in English. */
export const pseudoLanguage = 'en-XA';

/** Takes its texts in place of those of the languages that are offered. */
export function pseudoLanguagePlugin(): Plugin {
  const textsOf: TextsOf = (topic) => {
    const file = new URL(`../../shared/messages/en/${topic}.json`, import.meta.url);
    const texts = JSON.parse(readFileSync(file, 'utf8')) as Readonly<Record<string, string>>;
    return Object.fromEntries(
      Object.entries(texts).map(([code, text]) => [code, `⟦${text}${longer(sizeOf(compiled(code, text)))}⟧`]),
    );
  };
  return {
    name: 'pseudo-language',
    enforce: 'pre',
    api: { languages: { [pseudoLanguage]: textsOf } },
    load(id) {
      if (!id.endsWith('/shared/messages/made/languages.ts')) return undefined;
      return `export const languages = ['en', '${pseudoLanguage}'];\nexport const machineMade = [];`;
    },
  };
}

/** Words of eight letters, as long ones are what breaks a layout. */
function longer(text: string): string {
  const letters = Math.ceil(0.4 * text.length);
  return letters < 3 ? '~' : ` ${'~'.repeat(letters).replace(/~{8}(?=~)/g, '~~~~~~~~ ')}`;
}

/** The longest that it may be read. */
function sizeOf(text: PageText): string {
  if (typeof text === 'string') return text;
  return text
    .map((piece) => {
      if (typeof piece === 'string') return piece;
      const [name, choices, inner] = piece;
      if (choices === undefined) return 'nnnn';
      if (name === '<') return sizeOf(inner as PageText);
      const all = Object.values(choices as Readonly<Record<string, PageText>>).map(sizeOf);
      return all.reduce((most, one) => (one.length > most.length ? one : most), '');
    })
    .join('');
}
