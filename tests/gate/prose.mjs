/**
 * Core finds and says nothing: what it finds are codes with parameters, and `shared/messages` has the words. So no text of three
 * words or more stands in it, errors for programmers aside, and nothing in it renders one. What people read of the server (paper, mail,
 * the page of a link, calendar, health, lineage) is rendered there, and holds no text of its own either; lines of the log are no reading.
 * Pages whose texts stand in a catalogue hold none either: not a word between tags, nor in an attribute that is read.
 */
import { execFileSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseAst } from 'vite';

const root = dirname(dirname(dirname(fileURLToPath(import.meta.url))));

/** The text of a literal or template, without what is put into it; undefined for any other node. */
function textOf(node) {
  if (node.type === 'Literal') return typeof node.value === 'string' ? node.value : undefined;
  if (node.type === 'TemplateLiteral') return node.quasis.map(({ value }) => value.cooked).join('…');
  return undefined;
}

const isForProgrammers = ({ type, callee, source }) =>
  (type === 'NewExpression' && callee.name?.endsWith('Error')) ||
  (type === 'CallExpression' && /^(debug|info|warn|error)$/.test(callee.property?.name)) ||
  (source != null && /^(Im|Ex)port/.test(type));

/** Markup, and the name of the program in a calendar, are no reading. */
const isProse = (text) =>
  (
    text
      .replace(/<[^>]*>/g, ' ')
      .replace(/^PRODID:.*/, '')
      .match(/\p{L}{2,}/gu) ?? []
  ).length >= 3 && /\s/.test(text);

/** A module that makes words of messages, or holds them. */
const makesWords = /shared\/messages\/(render|renderer|format|in-words|made\/(?!params))/;

/** What may render, and takes all its words from the catalogue. */
const takesWords = [
  'server/services/records/calendar',
  'server/services/records/pdf',
  'server/services/lineage/family.ts',
  'server/services/lineage/lot-words.ts',
  'server/services/lineage/rest.ts',
  'server/notify/acknowledge-by-link.ts',
  'server/notify/channels/mail-body.ts',
  'server/notify/channels/render-content.ts',
  'server/notify/delivery-health.ts',
  'server/notify/heartbeat.ts',
  'server/notify/sirens.ts',
  'server/notify/system-unwell.ts',
  'server/health/disk-watch.ts',
  'server/http/routes/health.ts',
  'server/monitor/piles-health.ts',
  'server/monitor/troubles-words.ts',
];

/** Pages that take all their words from the catalogue, and what they show. */
const catalogued = [
  'simulator/practice',
  'web/src/features/help',
  'web/src/features/lineage',
  'web/src/features/plan',
  'web/src/features/practice',
  'web/src/features/seasons',
];

/** Names of units, formats and the program itself are the same in every language. */
const isWord = (text) => /\p{L}{2,}/u.test(text.replace(/\b(cm|kg|mL|CSV|JSON|PDF|Branhearth)\b/g, ''));
const isRead = (attribute) =>
  /^(label|title|hint|legend|placeholder|alt|unitNote|waitsFor|aria-label|aria-valuetext)$/.test(attribute);

const isForMachines = ({ type, name }) => type === 'JSXAttribute' && /^(class|d|style)$/.test(name.name);

/** @returns Words between tags, or in an attribute that people see or hear. */
function shownIn(node) {
  if (node.type === 'JSXText') return isWord(node.value) ? node.value : undefined;
  if (node.type !== 'JSXAttribute' || !isRead(node.name.name)) return undefined;
  const text = node.value === null ? undefined : textOf(node.value);
  return text !== undefined && isWord(text) ? text : undefined;
}

const faults = [];
const files = execFileSync(
  'git',
  ['ls-files', '--cached', '--others', '--exclude-standard', 'core', ...takesWords, ...catalogued],
  { cwd: root, encoding: 'utf8' },
);
for (const file of files.split('\n').filter((name) => /\.tsx?$/.test(name) && existsSync(join(root, name)))) {
  const code = readFileSync(join(root, file), 'utf8');
  const walk = (node) => {
    if (Array.isArray(node)) return node.forEach(walk);
    if (node === null || typeof node !== 'object') return;
    if (file.startsWith('core/') && makesWords.test(node.source?.value))
      faults.push(`${file}: renders messages, by ${node.source.value}`);
    if (isForProgrammers(node) || isForMachines(node)) return;
    const text = node.type === undefined ? undefined : (shownIn(node) ?? textOf(node));
    if (text !== undefined && (isProse(text) || text === shownIn(node)))
      faults.push(
        `${file}:${code.slice(0, node.start).split('\n').length}: words outside the catalogue: ${text.slice(0, 60)}`,
      );
    for (const part of Object.values(node)) walk(part);
  };
  walk(parseAst(code, { lang: file.endsWith('x') ? 'tsx' : 'ts' }));
}
for (const fault of faults) console.error(fault);
if (faults.length > 0) process.exitCode = 1;
