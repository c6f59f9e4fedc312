/**
 * Runs before anything is drawn: light or dark as remembered, and the scripts in the language that is read on this device, as it was
 * read last, else as its browser asks for.
 */
import { languageFor } from '../../../shared/messages/language.ts';
import { languageKey, prefsKey, recall } from '../data/remembered.ts';

/** Of the scripts of each language. */
declare const builtFolders: Readonly<Record<string, string>>;
/** Names of what the first page needs; the first of them begins it. */
declare const firstScripts: readonly [string, ...string[]];

const root = document.documentElement;

function setShade(): void {
  try {
    const { shade } = JSON.parse(recall(prefsKey) ?? '{}');
    if (shade === 'light' || shade === 'dark') root.dataset.shade = shade;
  } catch {
    // Unreadable: the browser's own choice stands.
  }
}

function loadScripts(): void {
  const language = languageFor([recall(languageKey) ?? '', ...navigator.languages], Object.keys(builtFolders));
  root.lang = language;
  const addressOf = (name: string) => `/${builtFolders[language]}/${name}`;
  for (const name of firstScripts) {
    const link = document.createElement('link');
    link.rel = 'modulepreload';
    link.crossOrigin = '';
    link.href = addressOf(name);
    document.head.append(link);
  }
  // What is added by hand does not wait for the document as what stands in it would.
  document.addEventListener('DOMContentLoaded', () => {
    const script = document.createElement('script');
    script.type = 'module';
    script.crossOrigin = '';
    script.src = addressOf(firstScripts[0]);
    document.head.append(script);
  });
}

setShade();
loadScripts();
