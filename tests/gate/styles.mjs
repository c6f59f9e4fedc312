/**
 * A sheet dresses its own component and reaches nothing else. Each sheet is a layer of its own (`web/layers.ts`), the shared ones of
 * `ui/style` below all others, so no sheet wins by a longer selector; here is held that none speaks of what another dresses:
 *
 * - every class is spoken of by one sheet alone; those of `ui/style` count as one, and only they style elements by name,
 * - what a rule of any other sheet dresses wears a class of that sheet, or is reached from one step by step by `>` (within its own table or
 *   drawing, anywhere). The page itself may be dressed while it shows such a class: `html:has(.own)`,
 * - whatever wears a class brings its sheet along by its own imports: nothing depends on who shows it, or on which page was open before.
 *
 * What a shared sheet lets others set is a custom property (`--fields-apart`).
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
const faults = [];

const isShared = (sheet) => sheet.startsWith('ui/style/');
const ownerOf = (sheet) => (isShared(sheet) ? 'ui/style' : sheet);
const classesIn = (selector) => [...selector.matchAll(/\.([a-zA-Z][\w-]*)/g)].map(([, name]) => name);

/** @returns {string[]} The selectors of a sheet, one by one. */
function selectorsOf(sheet) {
  const bare = text.get(sheet).replace(/\/\*[\s\S]*?\*\//g, '');
  const preludes = [...bare.matchAll(/([^{};]+)\{/g)].map(([, prelude]) => prelude.trim());
  return preludes.filter((prelude) => !prelude.startsWith('@')).flatMap((prelude) => outside(prelude, ','));
}

/** Parts a selector where the sign stands outside of brackets. */
function outside(selector, sign) {
  const parts = [''];
  let depth = 0;
  for (const letter of selector) {
    if ('(['.includes(letter)) depth += 1;
    if (')]'.includes(letter)) depth -= 1;
    if (depth === 0 && letter === sign) parts.push('');
    else parts[parts.length - 1] += letter;
  }
  return parts.map((part) => part.trim()).filter((part) => part !== '');
}

/** class -> who speaks of it */
const ownersOf = new Map();
const sheetsOf = new Map();
for (const sheet of files.filter((f) => f.endsWith('.css'))) {
  for (const name of selectorsOf(sheet).flatMap(classesIn)) {
    ownersOf.set(name, (ownersOf.get(name) ?? new Set()).add(ownerOf(sheet)));
    sheetsOf.set(name, (sheetsOf.get(name) ?? new Set()).add(sheet));
  }
}
for (const [name, owners] of ownersOf) {
  if (owners.size > 1)
    faults.push(`.${name} is spoken of by ${[...owners].join(' and ')}: one of them needs a class of its own`);
}

const insideOnly = /^(th|td|tr|caption|thead|tbody|tfoot|text|path|circle|rect|g)\b/;
const wears = (compound) => classesIn(compound.replace(/:(has|not)\([^)]*\)/g, '')).length > 0;

/** Whether what a selector dresses is the sheet's own; the classes in it are, as is held above. */
function isOwn(selector) {
  if (/^(html|body):has\(\.[\w-]+\)$/.test(selector)) return true;
  const steps = outside(selector.replace(/\s*([>+~])\s*/g, ' $1 '), ' ');
  const subject = steps.at(-1) ?? '';
  if (wears(subject)) return true;
  const from = steps.findLastIndex(wears);
  if (from < 0) return false;
  if (insideOnly.test(subject)) return true;
  const way = steps.slice(from + 1).filter((_, i) => i % 2 === 0);
  return steps[from + 1] === '>' && way.every((sign) => ['>', '+', '~'].includes(sign));
}
for (const sheet of files.filter((f) => f.endsWith('.css') && !isShared(f))) {
  for (const selector of selectorsOf(sheet)) {
    if (!isOwn(selector))
      faults.push(`${sheet} reaches others by "${selector}": give what it dresses a class, or go step by step (>)`);
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

for (const file of files.filter((f) => f.endsWith('.tsx'))) {
  const reached = reach(file);
  const isBrought = (sheet) => isShared(sheet) || reached.has(sheet);
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
console.log(`styles: ${sheetsOf.size} classes, each of one sheet and worn only where that is brought along`);
