/**
 * Every regular expression of the sources takes time that grows with the length of its text and
 * not with its square: a text from outside would else hold up the work of everybody.
 *
 * recheck judges them (MIT; by the ambiguity of the automaton, after Weideman, van der Merwe, Berglund and Watson, "Analyzing
 * Matching Time Behavior of Backtracking Regular Expression Matchers by Using Ambiguity of NFA", CIAA 2016).
 */
import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import recheck from 'recheck/lib/browser.js';
import { parseAst } from 'vite';

const root = dirname(dirname(dirname(fileURLToPath(import.meta.url))));
const rooms = ['shared', 'core', 'ingest', 'server', 'simulator', 'web'];

function sourcesBelow(folder) {
  return readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) return entry.name === 'node_modules' ? [] : sourcesBelow(path);
    return /\.(ts|tsx|mjs)$/.test(entry.name) ? [path] : [];
  });
}

/** What a text is made of: literals, templates of known texts, String.raw; undefined when it is not known before the run. */
function textOf(node, known) {
  if (node?.type === 'Literal' && typeof node.value === 'string') return node.value;
  if (node?.type === 'Identifier') return known.get(node.name);
  const raw = node?.type === 'TaggedTemplateExpression';
  const template = raw ? node.quasi : node;
  if (template?.type !== 'TemplateLiteral') return undefined;
  const parts = template.expressions.map((part) => textOf(part, known));
  if (parts.includes(undefined)) return undefined;
  return template.quasis.map(({ value }, i) => (raw ? value.raw : value.cooked) + (parts[i] ?? '')).join('');
}

/** pattern with its flags -> places; and places whose pattern is made in the run. */
function patternsIn(path, found, unknown) {
  const code = readFileSync(path, 'utf8');
  const known = new Map();
  const place = ({ start }) => `${relative(root, path)}:${code.slice(0, start).split('\n').length}`;
  const take = (pattern, flags, node) => {
    const key = `/${pattern}/${flags}`;
    found.set(key, { pattern, flags, places: [...(found.get(key)?.places ?? []), place(node)] });
  };
  const walk = (node) => {
    if (Array.isArray(node)) return node.forEach(walk);
    if (node === null || typeof node !== 'object') return;
    if (node.type === 'VariableDeclarator' && node.id.type === 'Identifier') {
      const text = textOf(node.init, known);
      if (text !== undefined) known.set(node.id.name, text);
    }
    if (node.type === 'Literal' && node.regex) take(node.regex.pattern, node.regex.flags, node);
    if (/^(New|Call)Expression$/.test(node.type) && node.callee.name === 'RegExp') {
      const [pattern, flags] = node.arguments.map((part) => textOf(part, known));
      if (pattern === undefined || (node.arguments.length > 1 && flags === undefined)) unknown.push(place(node));
      else take(pattern, flags ?? '', node);
    }
    for (const part of Object.values(node)) walk(part);
  };
  walk(parseAst(code, { lang: path.endsWith('x') ? 'tsx' : 'ts' }).body);
}

/** @returns One line on a pattern that is not linear, or that cannot be judged; undefined on a good one. */
export function faultOf(pattern, flags) {
  const { status, complexity, error } = recheck.checkSync(pattern, flags.replace(/[dv]/g, ''), {
    checker: 'automaton',
    timeout: 120_000,
  });
  if (status === 'safe') return undefined;
  return status === 'vulnerable' ? complexity.summary : `cannot be judged (${error?.kind}): write it in another way`;
}

const found = new Map();
const unknown = [];
for (const path of rooms.flatMap((room) => sourcesBelow(join(root, room)))) patternsIn(path, found, unknown);

// The judge itself is judged: these two must be found, or nothing above means anything.
const faults = [
  ['\\s+$', ''],
  ['^(a+)+$', ''],
].flatMap(([pattern, flags]) => (faultOf(pattern, flags) ? [] : [`not found out: /${pattern}/${flags}`]));
for (const [key, { pattern, flags, places }] of found) {
  const fault = faultOf(pattern, flags);
  if (fault) faults.push(`${key} is ${fault}: ${places.join(', ')}`);
}
for (const place of unknown) faults.push(`a pattern that is only known in the run: ${place}`);
if (faults.length > 0) {
  console.error(faults.join('\n'));
  process.exit(1);
}
console.log(`patterns: ${found.size} regular expressions, each linear in the length of its text`);
