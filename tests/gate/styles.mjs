/**
 * Styles lie beside the feature that they dress. Whatever wears a class of another feature's sheet brings that sheet along by its
 * own imports: no page depends on which page was open before. What many features share is in web/src/ui/style.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = join(dirname(dirname(dirname(fileURLToPath(import.meta.url)))), 'web/src');
const below = (folder) =>
  readdirSync(folder, { withFileTypes: true }).flatMap((entry) =>
    entry.isDirectory() ? below(join(folder, entry.name)) : [join(folder, entry.name)],
  );
const files = below(root).map((path) => relative(root, path));
const text = new Map(files.filter((f) => /\.(css|tsx?)$/.test(f)).map((f) => [f, readFileSync(join(root, f), 'utf8')]));

/** class -> the sheets that speak of it */
const sheetsOf = new Map();
for (const sheet of files.filter((f) => f.endsWith('.css'))) {
  const selectors =
    text
      .get(sheet)
      .replace(/\/\*[^*]*\*\//g, '')
      .match(/[^{}]+\{/g) ?? [];
  for (const [, name] of selectors.join(' ').matchAll(/\.([a-zA-Z][\w-]*)/g)) {
    sheetsOf.set(name, (sheetsOf.get(name) ?? new Set()).add(sheet));
  }
}

const importsOf = (file) =>
  [...text.get(file).matchAll(/(?:from|import)\s*['"](\.[^'"?]+)['"]/g)].map(([, name]) => join(dirname(file), name));
function reach(file, seen = new Set()) {
  if (seen.has(file) || !text.has(file)) return seen;
  seen.add(file);
  if (!file.endsWith('.css')) for (const next of importsOf(file)) reach(next, seen);
  return seen;
}

/** Whoever brings a sheet may dress what it embeds. */
const embeds = new Map();
for (const file of text.keys()) {
  for (const sheet of file.endsWith('.css') ? [] : importsOf(file).filter((name) => name.endsWith('.css'))) {
    embeds.set(sheet, new Set([...(embeds.get(sheet) ?? []), ...reach(file)]));
  }
}

const faults = [];
for (const file of files.filter((f) => f.endsWith('.tsx'))) {
  const reached = reach(file);
  const isBrought = (sheet) =>
    sheet.startsWith('ui/style/') ||
    dirname(sheet) === dirname(file) ||
    reached.has(sheet) ||
    embeds.get(sheet)?.has(file);
  for (const [, words] of text.get(file).matchAll(/\bclass="([^"]*)"/g)) {
    for (const name of words.split(/\s+/)) {
      const sheets = [...(sheetsOf.get(name) ?? [])];
      if (sheets.length > 0 && !sheets.some(isBrought))
        faults.push(`${file} wears .${name} without ${sheets.join(' or ')}`);
    }
  }
}
if (faults.length > 0) {
  console.error([...new Set(faults)].join('\n'));
  process.exit(1);
}
console.log(`styles: ${sheetsOf.size} classes, each worn only where its sheet is brought along`);
