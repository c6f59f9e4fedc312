/**
 * Makes the typed modules of `made/` from the catalogues (`<language>/<topic>.json`, ICU MessageFormat): what each message takes,
 * by the names of its arguments, and its text. `npm run messages` writes them; with `--check` it only says what is not as it would be written.
 */
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parse, TYPE } from '@formatjs/icu-messageformat-parser';

const here = dirname(fileURLToPath(import.meta.url));
const source = 'en';
const isCheck = process.argv.includes('--check');
const faults = [];

/** What an argument holds, by the end of its name (see format.ts, which shows it). */
const endings = [
  [/(^c|C)$/, 'Temperature'],
  [/AtMs$/, 'number'],
  [/[a-z0-9]K$/, 'Difference'],
  [/[a-z0-9](Kg|L|Ml|M|M2|Mm|Cm|KgM3|KgM2|Ratio|Share)$/, 'Amount'],
  [/[a-z0-9](Frac|Pct|Ms|H|Hours|G|M3|Count|Number|Factor)$/, 'number'],
  [/Part$/, 'Part'],
  [/List$/, 'readonly (Part | string)[]'],
  [/(Name|Text)$/, 'string'],
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
      } else if (node.type !== TYPE.literal && node.type !== TYPE.pound)
        faults.push(`${code}: only plain arguments, plural and select are understood`);
    }
  };
  walk(parse(text, { ignoreTag: true }));
  return new Map([...found].sort(([a], [b]) => (a < b ? -1 : 1)));
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
    .filter((name) => name.endsWith('.json'))
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
  const importLines = importsOf(['Amount', 'Difference', 'NoParams', 'Part', 'Temperature'], '../../param-types.ts');
  const imports = importLines === '' ? '' : `${importLines}\n`;
  return `${madeBy(source, topic)}${imports}export interface ${pascal(topic)}Params {\n${body}\n}\n`;
}

function textsModule(language, topic) {
  const texts = Object.entries(textsOf(language, topic));
  const wanted = textsOf(source, topic);
  if (language !== source) {
    for (const code of Object.keys(wanted))
      if (!texts.some(([one]) => one === code)) faults.push(`${language}: ${code} is missing`);
    for (const [code, text] of texts) {
      if (wanted[code] === undefined) faults.push(`${language}: ${code} is in no other catalogue`);
      else
        for (const name of argumentsOf(code, text).keys())
          if (!argumentsOf(code, wanted[code]).has(name)) faults.push(`${language}: ${code} has an unknown {${name}}`);
    }
  }
  const lines = texts.map(([code, text]) => `  ${JSON.stringify(code)}: ${JSON.stringify(text)},`);
  return `${madeBy(language, topic)}export const ${pascal(topic)[0].toLowerCase()}${pascal(topic).slice(1)}Texts = {\n${lines.join('\n')}\n};\n`;
}

const camel = (topic) => `${pascal(topic)[0].toLowerCase()}${pascal(topic).slice(1)}`;

function indexOfParams(topics) {
  const imports = topics
    .map((topic) => `import type { ${pascal(topic)}Params } from './params/${topic}.ts';`)
    .join('\n');
  const parents = topics.map((topic) => `    ${pascal(topic)}Params`).join(',\n');
  return `// Made by \`npm run messages\`.\n${imports}\n\n/** What each message takes, by its code. */\nexport interface MessageParams\n  extends\n${parents} {}\n`;
}

function indexOfTexts(language, topics) {
  const imports = topics.map((topic) => `import { ${camel(topic)}Texts } from './${language}/${topic}.ts';`).join('\n');
  const all = topics.map((topic) => `  ...${camel(topic)}Texts,`).join('\n');
  return `// Made by \`npm run messages\`.\n${imports}\n\n/** Every text of this language, by code: for servers and tests. Pages take the topics that they show. */\nexport const ${language}Texts = {\n${all}\n};\n`;
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

const languages = readdirSync(here, { withFileTypes: true })
  .filter((entry) => entry.isDirectory() && entry.name !== 'made')
  .map(({ name }) => name);
const topics = topicsOf(source);
for (const topic of topics) write(join(here, 'made', 'params', `${topic}.ts`), paramsModule(topic));
write(join(here, 'made', 'params.ts'), indexOfParams(topics));
for (const language of languages) {
  for (const topic of topicsOf(language))
    write(join(here, 'made', language, `${topic}.ts`), textsModule(language, topic));
  write(join(here, 'made', `${language}.ts`), indexOfTexts(language, topicsOf(language)));
}
for (const folder of ['params', ...languages])
  for (const name of readdirSync(join(here, 'made', folder)))
    if (!topics.includes(name.replace('.ts', ''))) {
      if (isCheck) faults.push(`made/${folder}/${name} has no catalogue any more`);
      else rmSync(join(here, 'made', folder, name));
    }

for (const fault of faults) console.error(fault);
if (faults.length > 0) process.exitCode = 1;
