/**
 * Core finds and says nothing: what it finds are codes with parameters, and `shared/messages` has the words. So no text of three
 * words or more stands in it, errors for programmers aside, and nothing in it renders one. What people read of the server is rendered there
 * by the catalogue too, so it holds no text of its own: what is left out is named below, with why.
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

const isForProgrammers = ({ type, callee, source, key }) =>
  (type === 'NewExpression' && callee.name?.endsWith('Error')) ||
  (type === 'CallExpression' && /^(trace|debug|info|warn|error|fatal|describe)$/.test(callee.property?.name)) ||
  (source != null && /^(Im|Ex)port/.test(type)) ||
  // What the description of the API says of a route.
  (type === 'Property' && /^(description|summary)$/.test(key?.name)) ||
  (type === 'CallExpression' && callee?.name === 'fileAnswer');

/** Of HTTP, for browsers. */
const headerValue =
  /^(text|application|image)\/[a-z.+-]+(;.*)?$|^(private|public|inline|attachment)[,;] ?.*$|^default-src .*$|^Bearer realm=.*$|^Accept-Language.*$|^\((min-width|prefers-color-scheme): .*\)$/s;

/** Markup, and the name of the program in a calendar, are no reading. */
const isProse = (text) =>
  (
    text
      .replace(/<[^>]*>/g, ' ')
      .replace(/^PRODID:.*/, '')
      .replace(headerValue, '')
      .replace(/^\s*:root\{.*|\w+="[^"]*"/gs, '')
      .match(/\p{L}{2,}/gu) ?? []
  ).length >= 3 && /\s/.test(text);

/** A module that makes words of messages, or holds them. */
const makesWords = /shared\/messages\/(render|renderer|format|in-words|made\/(?!params))/;

/** What may render, and takes all its words from the catalogue: the server, but for what is no reading of its pages and messages. */
const takesWords = ['server'];

/** At a terminal: who runs the server reads it there, before anybody has said in which language. */
const terminal =
  /^server\/(check|cli|move|backup)\/|^server\/health\/data-folder\.ts$|^server\/app\/(old-node|start|start-help|start-lines)\.ts$|^server\/start-problem\.ts$/;
/** For programs: metrics with their help, files for a broker, templates for a hub, a command line, names of columns, what people write that is understood. */
const machines =
  /^server\/http\/metrics\/|^web\/src\/features\/probes\/publish-line\.ts$|^server\/http\/routes\/metrics\.ts$|^server\/publish\/hub-templates\.ts$|^server\/http\/api-description\.ts$|^server\/services\/(probe-keys\/(mosquitto-files|show-key)|import\/column-guess|records\/export\/reading-rows|seasons\/compare-table)\.ts$/;
const isElsewhere = (file) => [terminal, machines].some((pattern) => pattern.test(file));

/** Pages, and what they show, take all their words from the catalogue. */
const catalogued = ['simulator/practice', 'web/src'];

/** Names of units, formats and the program itself are the same in every language. */
const isWord = (text) => /\p{L}{2,}/u.test(text.replace(/\b(cm|kg|mL|CSV|JSON|PDF|Branhearth)\b/g, ''));
const isRead = (attribute) =>
  /^(label|title|hint|legend|placeholder|alt|unit|unitNote|waitsFor|words|asks|sure|otherwise|aria-label|aria-valuetext)$/.test(
    attribute,
  );

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
for (const file of files
  .split('\n')
  .filter((name) => /\.tsx?$/.test(name) && !isElsewhere(name) && existsSync(join(root, name)))) {
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
