/**
 * The pages once for each language, with its texts in the code in place of the English ones: a phone loads those of its own language alone, at
 * the same time as the code that shows them, and the worker keeps them with it. `assets/<language>-<digest>/` holds the scripts of a
 * language; `begin.js` picks one.
 */
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build, type Plugin, type Rolldown } from 'vite';
import { compiled, isPage } from '../shared/messages/compiled.mjs';
import { languages as offered } from '../shared/messages/made/languages.ts';
import type { TextsOf } from '../shared/messages/page-text.ts';

const here = fileURLToPath(new URL('.', import.meta.url));
const catalogues = join(here, '../shared/messages');
const english = 'en';

function readTopic(language: string, topic: string): ReturnType<TextsOf> {
  try {
    return JSON.parse(readFileSync(join(catalogues, language, `${topic}.json`), 'utf8'));
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return {}; // a draft lacks topics
    throw error;
  }
}

/** Each topic is read once, and asked for with each of its texts. */
function readTexts(language: string): TextsOf {
  const read = new Map<string, ReturnType<TextsOf>>();
  return (topic) => {
    const texts = read.get(topic) ?? readTopic(language, topic);
    read.set(topic, texts);
    return texts;
  };
}

/** What a plugin of a test may bring along. */
interface BringsLanguages {
  readonly languages?: Readonly<Record<string, TextsOf>>;
}

/** Where a text is to stand; catalogues never hold this. */
const placeOf = (topic: string, code: string) => `@text:${topic}:${code}@`;
const anyPlace = /["'`]@text:([\w-]+):([\w.-]+)@["'`]/g;

export function inEachLanguage(): Plugin {
  let textsOf: Readonly<Record<string, TextsOf>> = {};
  let inEnglish: TextsOf = () => ({});
  let parts: Parts;
  return {
    name: 'in-each-language',
    apply: 'build',
    enforce: 'pre',
    configResolved({ plugins }) {
      const brought = plugins.map((plugin) => (plugin.api as BringsLanguages | undefined)?.languages);
      inEnglish = readTexts(english);
      const own = Object.fromEntries(offered.map((language) => [language, readTexts(language)]));
      textsOf = brought.find((languages) => languages !== undefined) ?? own;
    },
    load: {
      filter: { id: /\/shared\/messages\/made\/en\/[a-z-]+\.ts$/ },
      handler(id) {
        const topic = basename(id, '.ts');
        const codes = Object.keys(inEnglish(topic)).map((code) => [code, placeOf(topic, code)]);
        const name = topic.replace(/-([a-z])/g, (_all, letter: string) => letter.toUpperCase());
        return `export const ${name}Texts = ${JSON.stringify(Object.fromEntries(codes))};`;
      },
    },
    generateBundle: {
      order: 'post',
      handler(_options, bundle) {
        parts = takeFirst(bundle);
        const chunks = Object.values(bundle).filter((one) => one.type === 'chunk');
        const names = chunks.map(({ fileName }) => fileName);
        for (const [language, own] of Object.entries(textsOf)) {
          const codes = chunks.map(({ code }) => inLanguage(code, language, own, inEnglish));
          const digest = createHash('sha256').update(codes.join('\n')).digest('hex').slice(0, 8);
          const folder = `assets/${language}-${digest}`;
          parts.folders[language] = folder;
          for (const [at, code] of codes.entries())
            this.emitFile({
              type: 'asset',
              fileName: (names[at] ?? '').replace('assets', folder),
              source: withParts(code, names, folder),
            });
        }
        for (const name of names) delete bundle[name];
      },
    },
    writeBundle: ({ dir = '' }) => buildBegin(dir, parts),
  };
}

/** What a page loads first, and where the scripts of a language stand. */
interface Parts {
  readonly folders: Record<string, string>;
  /** Names of scripts, that which begins the page before the others. */
  readonly first: readonly string[];
}

/** Takes the scripts out of the document: which ones, only the device knows. */
function takeFirst(bundle: Rolldown.OutputBundle): Parts {
  const document = bundle['index.html'];
  if (document?.type !== 'asset') throw new Error('The build made no index.html');
  const first: string[] = [];
  const without = String(document.source)
    .split('\n')
    .filter((line) => {
      const isScript = line.includes('<script type="module"') || line.includes('<link rel="modulepreload"');
      const name = isScript ? /"\/assets\/([^"]+)"/.exec(line)?.[1] : undefined;
      if (name !== undefined) first.push(name);
      return name === undefined;
    })
    .join('\n');
  document.source = without.replace('  </head>', '    <script src="/begin.js"></script>\n  </head>');
  return { folders: {}, first };
}

function inLanguage(code: string, language: string, own: TextsOf, inEnglish: TextsOf): string {
  const said = code.replace(anyPlace, (_all, topic: string, name: string) => {
    const text = own(topic)[name] ?? inEnglish(topic)[name] ?? '';
    return JSON.stringify(isPage(topic) ? compiled(name, text) : text);
  });
  if (said.includes('@text:'))
    throw new Error(`A text was joined with others before its language (${language}) was known`);
  return said;
}

/** What a script asks for later lies beside it; sheets are of no language. */
const withParts = (code: string, names: readonly string[], folder: string) =>
  names.reduce((all, name) => all.replaceAll(`"${name}"`, `"${name.replace('assets', folder)}"`), code);

/** One classic script, which runs before anything is drawn. */
async function buildBegin(dir: string, { folders, first }: Parts): Promise<void> {
  await build({
    configFile: false,
    root: here,
    publicDir: false,
    logLevel: 'warn',
    define: { builtFolders: JSON.stringify(folders), firstScripts: JSON.stringify(first) },
    build: {
      outDir: dir,
      emptyOutDir: false,
      target: 'es2022',
      lib: { entry: join(here, 'src/begin/begin.ts'), formats: ['iife'], name: 'begin', fileName: () => 'begin.js' },
    },
  });
}
