/**
 * The texts of each language, for servers and tests: read from its files when somebody first reads the language, as most installations
 * have readers of one or two. Pages load what is made of them.
 */
import { readdirSync, readFileSync } from 'node:fs';
import type { Texts } from './renderer.ts';

const isOfPages = (name: string) => name.startsWith('page-');
/** Beside the catalogues, about the translation. */
const aboutTranslation = ['standing.json', 'compared.json'];

/**
 * @param language One of `made/languages.ts`.
 * @returns Every text of it by code, but for those of pages.
 */
export function readTexts(language: string): Texts {
  const folder = new URL(`./${language}/`, import.meta.url);
  const names = readdirSync(folder).filter(
    (name) => name.endsWith('.json') && !isOfPages(name) && !aboutTranslation.includes(name),
  );
  const topics = names.map((name): Texts => JSON.parse(readFileSync(new URL(name, folder), 'utf8')));
  return Object.assign({}, ...topics);
}
