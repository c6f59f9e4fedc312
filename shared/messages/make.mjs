/**
 * Makes the typed modules of `made/` from the catalogues (`<language>/<topic>.json`, ICU MessageFormat): what each message takes,
 * by the names of its arguments, and its text in English. `npm run messages` writes them; with `--check` it only says what is not as it would
 * be written. Another language has the same codes, arguments and choices; a draft may lack some and is offered to nobody;
 * `--with-drafts` offers it, to look at it. `--in=<folder>` takes catalogues from elsewhere, for tests.
 */
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { TYPE } from '@formatjs/icu-messageformat-parser';
import { compiled, isPage, parsed } from './compiled.mjs';
import { isTopicFile, standingOf } from './standing.mjs';

const elsewhere = process.argv.find((one) => one.startsWith('--in='))?.slice('--in='.length);
const here = elsewhere ?? dirname(fileURLToPath(import.meta.url));
const source = 'en';
const isCheck = process.argv.includes('--check');
const areDraftsOffered = process.argv.includes('--with-drafts');
const faults = [];

/** What an argument holds, by the end of its name (see format.ts, which shows it). */
const endings = [
  [/(^c|C)$/, 'Temperature'],
  [/AtMs$/, 'number'],
  [/[a-z0-9]K$/, 'Difference'],
  [/[a-z0-9](Kg|L|Ml|M|M2|Mm|Cm|KgM3|KgM2|Ratio|Share)$/, 'Amount'],
  [/[a-z0-9](Frac|Pct|Ms|H|Hours|Bytes|G|M3|Count|Number|Factor)$/, 'number'],
  [/Part$/, 'Part'],
  [/List$/, 'readonly (Part | string)[]'],
  [/(Name|Text|[a-z]Day)$/, 'string'],
];

/** @returns Map of argument name to its TypeScript type. */
function argumentsOf(code, text) {
  const found = new Map();
  const note = (name, type) => {
    const before = found.get(name);
    if (before !== undefined && before !== type) faults.push(`${code}: {${name}} is used as ${before} and as ${type}`);
    found.set(name, type);
  };
  const byName = (name) => {
    const ending = endings.find(([pattern]) => pattern.test(name));
    if (ending === undefined)
      faults.push(`${code}: the name of {${name}} does not end with a unit or a kind (shared/messages/README.md)`);
    return ending?.[1] ?? 'never';
  };
  const walk = (nodes) => {
    for (const node of nodes) {
      if (node.type === TYPE.argument) note(node.value, byName(node.value));
      else if (node.type === TYPE.plural) {
        note(node.value, 'number');
        for (const { value } of Object.values(node.options)) walk(value);
      } else if (node.type === TYPE.select) {
        note(node.value, choices(Object.keys(node.options)));
        for (const { value } of Object.values(node.options)) walk(value);
      } else if (node.type === TYPE.tag && isPage(code)) {
        note(node.value, 'Tag');
        walk(node.children);
      } else if (node.type !== TYPE.literal && node.type !== TYPE.pound)
        faults.push(`${code}: only plain arguments, plural and select are understood`);
    }
  };
  walk(parsed(code, text));
  return new Map([...found].sort(([a], [b]) => (a < b ? -1 : 1)));
}

/** A translation says all that English says: the same arguments, and the same choices wherever it makes them. */
function compare(language, code, text, english) {
  const [own, wanted] = [argumentsOf(code, text), argumentsOf(code, english)];
  const [ownChoices, wantedChoices] = [choicesOf(code, text), choicesOf(code, english)];
  for (const name of own.keys()) if (!wanted.has(name)) faults.push(`${language}: ${code} has an unknown {${name}}`);
  // What English chooses by, a language may not need to: {isFirst, select, …} where none has capitals.
  for (const name of wanted.keys())
    if (!own.has(name) && wantedChoices.get(name)?.type !== 'select')
      faults.push(`${language}: ${code} leaves out {${name}}`);
  for (const [name, { type, keys }] of ownChoices) {
    const english = wantedChoices.get(name);
    if (english === undefined) continue;
    const isSame = (of) => [...of(keys)].sort().join() === [...of(english.keys)].sort().join();
    const exact = (all) => [...all].filter((key) => key.startsWith('='));
    if (type === 'select' ? !isSame((all) => all) : !isSame(exact))
      faults.push(`${language}: ${code} chooses otherwise by {${name}} than English: ${[...english.keys].join(', ')}`);
    const known = new Intl.PluralRules(language).resolvedOptions().pluralCategories;
    const unknown = type === 'plural' ? [...keys].filter((key) => !key.startsWith('=') && !known.includes(key)) : [];
    if (unknown.length > 0)
      faults.push(`${language}: ${code} has a plural of {${name}} that the language does not: ${unknown.join(', ')}`);
  }
}

/** @returns Map of argument name to how it is chosen by, and the keys of all its choices. */
function choicesOf(code, text) {
  const found = new Map();
  const walk = (nodes) => {
    for (const node of nodes) {
      if (node.type === TYPE.tag) walk(node.children);
      if (node.type !== TYPE.plural && node.type !== TYPE.select) continue;
      const type = node.type === TYPE.plural ? 'plural' : 'select';
      const keys = found.get(node.value)?.keys ?? new Set();
      for (const [key, { value }] of Object.entries(node.options)) {
        keys.add(key);
        walk(value);
      }
      found.set(node.value, { type, keys });
    }
  };
  walk(parsed(code, text));
  return found;
}

const choices = (keys) =>
  keys.every((key) => key === 'true' || key === 'other') && keys.includes('true')
    ? 'boolean'
    : keys
        .sort()
        .map((key) => `'${key}'`)
        .join(' | ');

const topicsOf = (language) =>
  readdirSync(join(here, language))
    .filter(isTopicFile)
    .map((name) => name.slice(0, -'.json'.length))
    .sort();
const textsOf = (language, topic) => JSON.parse(readFileSync(join(here, language, `${topic}.json`), 'utf8'));
const pascal = (topic) => topic.replace(/(^|-)([a-z])/g, (_all, _dash, letter) => letter.toUpperCase());
const madeBy = (language, topic) =>
  `// Made from ../../${language}/${topic}.json by \`npm run messages\`; change that instead.\n`;

function paramsModule(topic) {
  const texts = Object.entries(textsOf(source, topic));
  const lines = texts.map(([code, text]) => {
    if (!code.startsWith(`${topic}.`)) faults.push(`${code}: codes of ${topic}.json begin with "${topic}."`);
    const args = argumentsOf(code, text);
    const body = [...args].map(([name, type]) => `readonly ${name}: ${type}`).join('; ');
    return `  '${code}': ${args.size === 0 ? 'NoParams' : `{ ${body} }`};`;
  });
  const body = lines.join('\n');
  const words = new Set(body.split(/\W/));
  const importsOf = (names, path) => {
    const used = names.filter((name) => words.has(name));
    return used.length === 0 ? '' : `import type { ${used.join(', ')} } from '${path}';\n`;
  };
  const importLines = importsOf(
    ['Amount', 'Difference', 'NoParams', 'Part', 'Tag', 'Temperature'],
    '../../param-types.ts',
  );
  const imports = importLines === '' ? '' : `${importLines}\n`;
  return `${madeBy(source, topic)}${imports}export interface ${pascal(topic)}Params {\n${body}\n}\n`;
}

function textsModule(topic) {
  const texts = Object.entries(textsOf(source, topic));
  if (isPage(topic)) {
    const lines = texts.map(([code, text]) => `  ${JSON.stringify(code)}: ${JSON.stringify(compiled(code, text))},`);
    const type = `${pascal(topic)}Params`;
    const imports = `import type { PageTexts } from '../../page-text.ts';\nimport type { ${type} } from '../params/${topic}.ts';\n\n`;
    return `${madeBy(source, topic)}${imports}export const ${camel(topic)}Texts: PageTexts<${type}> = {\n${lines.join('\n')}\n};\n`;
  }
  const lines = texts.map(([code, text]) => `  ${JSON.stringify(code)}: ${JSON.stringify(text)},`);
  return `${madeBy(source, topic)}export const ${camel(topic)}Texts = {\n${lines.join('\n')}\n};\n`;
}

/** Sees that a topic says what English says, and nothing else. @returns How many texts it lacks. */
function checkTopic(language, topic) {
  const own = topicsOf(language).includes(topic) ? textsOf(language, topic) : {};
  const wanted = textsOf(source, topic);
  for (const [code, text] of Object.entries(own)) {
    if (wanted[code] === undefined) faults.push(`${language}: ${code} is not in English`);
    else compare(language, code, text, wanted[code]);
  }
  const missing = Object.keys(wanted).filter((code) => own[code] === undefined);
  if (standings.get(language) !== 'draft') for (const code of missing) faults.push(`${language}: ${code} is missing`);
  return missing.length;
}

/** Also of a draft, so that what is kept of it stays true while English goes on. */
function checkLanguage(language) {
  for (const topic of topicsOf(language))
    if (!topics.includes(topic)) faults.push(`${language}: ${topic}.json is not in English`);
  const missing = topics.reduce((count, topic) => count + checkTopic(language, topic), 0);
  if (standings.get(language) === 'draft') console.log(`${language}: a draft, which lacks ${missing} texts`);
}

const camel = (topic) => `${pascal(topic)[0].toLowerCase()}${pascal(topic).slice(1)}`;

function indexOfParams(topics) {
  const imports = topics
    .map((topic) => `import type { ${pascal(topic)}Params } from './params/${topic}.ts';`)
    .join('\n');
  const parents = topics.map((topic) => `    ${pascal(topic)}Params`).join(',\n');
  return `// Made by \`npm run messages\`.\n${imports}\n\n/** What each message takes, by its code. */\nexport interface MessageParams\n  extends\n${parents} {}\n`;
}

function languagesModule(languages) {
  const quoted = (all) => all.map((one) => `'${one}'`).join(', ');
  const list = quoted(languages);
  const machine = quoted(languages.filter((one) => one !== source && standings.get(one) !== 'read'));
  return `// Made by \`npm run messages\`.\n/** Languages that have catalogues; English, which the others fall back to, comes first. */\nexport const languages = [${list}] as const;\n\n/** Those of them that no grower has read yet. */\nexport const machineMade: readonly string[] = [${machine}];\n`;
}

/** Rows name whoever acts without being anybody by this, whatever language a page is in. */
function keptNamesModule() {
  const names = Object.entries(textsOf(source, 'person')).map(
    ([code, text]) => `  ${JSON.stringify(code)}: ${JSON.stringify(text)},`,
  );
  return `${madeBy(source, 'person').replace('../../', '../')}/** Names as rows keep them: in English, whatever is read. */\nexport const keptNames = {\n${names.join('\n')}\n} as const;\n`;
}

function indexOfTexts(topics) {
  const imports = topics.map((topic) => `import { ${camel(topic)}Texts } from './${source}/${topic}.ts';`).join('\n');
  const all = topics.map((topic) => `  ...${camel(topic)}Texts,`).join('\n');
  return `// Made by \`npm run messages\`.\n${imports}\n\n/** Every text that is found, by code, for pages; most take the topics that they show. */\nexport const ${source}Texts = {\n${all}\n};\n`;
}

function write(path, text) {
  const now = existsSync(path) ? readFileSync(path, 'utf8') : '';
  if (now === text) return;
  if (isCheck) faults.push(`${path.slice(here.length + 1)} is not what its catalogue makes: run \`npm run messages\``);
  else {
    mkdirSync(dirname(path), { recursive: true });
    writeFileSync(path, text);
  }
}

/** @returns What was made of a topic that is no more, or by an earlier version of this. */
function leftOver() {
  const isMade = (name) =>
    ['params', 'params.ts', 'languages.ts', 'kept-names.ts', source, `${source}.ts`].includes(name);
  const ofTopics = ['params', source].flatMap((folder) => {
    const names = readdirSync(join(here, 'made', folder)).filter((name) => !topics.includes(name.replace('.ts', '')));
    return names.map((name) => `${folder}/${name}`);
  });
  return [...readdirSync(join(here, 'made')).filter((name) => !isMade(name)), ...ofTopics];
}

const folders = readdirSync(here, { withFileTypes: true })
  .filter((entry) => entry.isDirectory() && entry.name !== 'made')
  .map(({ name }) => name)
  .sort((one, other) => Number(other === source) - Number(one === source) || (one < other ? -1 : 1));
const translations = folders.filter((one) => one !== source);
const standings = new Map(
  translations.map((one) => [one, standingOf(join(here, one), (what) => faults.push(`${one}: ${what}`))]),
);
const languages = folders.filter((one) => areDraftsOffered || standings.get(one) !== 'draft');
const topics = topicsOf(source);
for (const language of translations) checkLanguage(language);
for (const topic of topics) write(join(here, 'made', 'params', `${topic}.ts`), paramsModule(topic));
write(join(here, 'made', 'params.ts'), indexOfParams(topics.filter((topic) => !isPage(topic))));
write(join(here, 'made', 'languages.ts'), languagesModule(languages));
write(join(here, 'made', 'kept-names.ts'), keptNamesModule());
for (const topic of topics) write(join(here, 'made', source, `${topic}.ts`), textsModule(topic));
write(join(here, 'made', `${source}.ts`), indexOfTexts(topics.filter((topic) => !isPage(topic))));
for (const path of leftOver()) {
  if (isCheck) faults.push(`made/${path} has no catalogue any more`);
  else rmSync(join(here, 'made', path), { recursive: true });
}

for (const fault of faults) console.error(fault);
if (faults.length > 0) process.exitCode = 1;
