/**
 * A language that is English between brackets and two fifths longer, for pages built with it: whatever stands outside of brackets is in
 * no catalogue, and what is longer than English must find room.
 */
import { readdirSync } from 'node:fs';
import type { Plugin } from 'vite';
import { readTexts } from '../../shared/messages/catalogues.ts';
import type { PageText } from '../../shared/messages/page-text.ts';

/** A private one, whose figures and dates are as in English. */
export const pseudoLanguage = 'en-XA';

const madeDir = new URL('../../shared/messages/made/en/', import.meta.url);

/** Takes its texts in place of those of the languages that are offered. */
export async function pseudoLanguagePlugin(): Promise<Plugin> {
  const pages = Object.assign({}, ...(await Promise.all(topicsOfPages().map(textsOf)))) as Record<string, PageText>;
  const texts = Object.fromEntries(
    Object.entries(readTexts('en')).map(([code, text]) => [code, `⟦${text}${longer(text)}⟧`]),
  );
  const longerPages = Object.fromEntries(
    Object.entries(pages).map(([code, text]) => [
      code,
      ['⟦', ...(typeof text === 'string' ? [text] : text), `${longer(sizeOf(text))}⟧`],
    ]),
  );
  const modules: Readonly<Record<string, string>> = {
    'languages.ts': `export const languages = ['en', '${pseudoLanguage}'];\nexport const machineMade = [];`,
    'loaders.ts': `export const loaders = { '${pseudoLanguage}': async () => (${JSON.stringify({ texts, pages: longerPages })}) };`,
  };
  return {
    name: 'pseudo-language',
    enforce: 'pre',
    load(id) {
      const name = /\/shared\/messages\/made\/([a-z]+\.ts)$/.exec(id)?.[1];
      return name === undefined ? undefined : modules[name];
    },
  };
}

const topicsOfPages = () => readdirSync(madeDir).filter((name) => name.startsWith('page-'));

async function textsOf(name: string): Promise<Record<string, PageText>> {
  const module = (await import(new URL(name, madeDir).href)) as Record<string, Record<string, PageText>>;
  return Object.values(module)[0] ?? {};
}

/** Words of eight letters, as long ones are what breaks a layout. */
function longer(text: string): string {
  const letters = Math.ceil(0.4 * text.replace(/\{[^{}]*\}/g, 'nnnn').length);
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
