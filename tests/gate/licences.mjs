/**
 * What is shipped, with its licences, written to server/licences.md (`--write`): what runs at a farm, with every package that it
 * brings on any system, and what is compiled into the pages. The gate holds that the list is whole and each licence an allowed one.
 */
import { execFileSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = dirname(dirname(dirname(fileURLToPath(import.meta.url))));
const list = join(root, 'server/licences.md');

/** A work under another licence may use these; LGPL as the library of its own that it is (libvips, loaded by sharp). */
const allowed = new Set([
  '0BSD',
  'Apache-2.0',
  'BSD-2-Clause',
  'BSD-3-Clause',
  'BlueOak-1.0.0',
  'ISC',
  'LGPL-3.0-or-later',
  'MIT',
  'MIT-0',
  'MPL-2.0',
  'OFL-1.1',
  'Zlib',
]);
/** Where a package names its licence in words of its own: read by us. */
const readByUs = {
  'dejavu-fonts-ttf': 'Bitstream Vera and Arev licences: free to use, embed and pass on',
  'png-js': 'MIT',
};

const { packages } = JSON.parse(readFileSync(join(root, 'package-lock.json'), 'utf8'));
const ours = packages[''];

/** The entry that `name` means for the package at `path`, as Node looks for it. */
function entryOf(path, name) {
  for (let at = path; ; at = at.replace(/\/?node_modules\/(@[^/]+\/)?[^/]+$/, '')) {
    const found = `${at === '' ? '' : `${at}/`}node_modules/${name}`;
    if (packages[found]) return found;
    if (at === '') return undefined;
  }
}

function withAllItBrings(names) {
  const found = new Set();
  const walk = (path, name, isOptional) => {
    const entry = entryOf(path, name);
    if (entry === undefined) {
      if (!isOptional) throw new Error(`${name}, wanted by ${path || 'branhearth'}, is not in package-lock.json`);
      return;
    }
    if (found.has(entry)) return;
    found.add(entry);
    const { dependencies = {}, optionalDependencies = {} } = packages[entry];
    for (const one of Object.keys(dependencies)) walk(entry, one, one in optionalDependencies);
    for (const one of Object.keys(optionalDependencies)) walk(entry, one, true);
  };
  for (const name of names) walk('', name, false);
  return [...found];
}

/** Packages that the sources of the pages import and that are only needed to build them. */
function compiledIntoPages() {
  const files = execFileSync('git', ['ls-files', 'web/src'], { cwd: root, encoding: 'utf8' }).split('\n');
  const sources = files
    .filter((name) => /\.(tsx?|css)$/.test(name))
    .map((name) => readFileSync(join(root, name), 'utf8'));
  return Object.keys(ours.devDependencies).filter((name) =>
    sources.some(
      (text) =>
        text.includes(` from '${name}'`) ||
        text.includes(` from '${name}/`) ||
        text.includes(`import '${name}'`) ||
        text.includes(`url("${name}/`),
    ),
  );
}

const faults = [];
const rows = new Map();
for (const entry of withAllItBrings([...Object.keys(ours.dependencies), ...compiledIntoPages()])) {
  const name = entry.replace(/^.*node_modules\//, '');
  const { version, license } = packages[entry];
  const named = readByUs[name] ?? license ?? 'none named';
  const isAllowed =
    name in readByUs ||
    named
      .replace(/[()]/g, '')
      .split(/ OR /)
      .some((one) => one.split(' AND ').every((part) => allowed.has(part)));
  if (!isAllowed)
    faults.push(`${name} ${version} has the licence ${named}: not in the list of tests/gate/licences.mjs`);
  rows.set(named, [...(rows.get(named) ?? []), `${name} ${version}`]);
}
// Files that are carried here: server/fonts/README.md says which, and from where.
for (const font of ['Noto Sans JP 2.004', 'Noto Sans KR 2.004', 'Noto Sans Thai 2.002'])
  rows.set('OFL-1.1', [...(rows.get('OFL-1.1') ?? []), `${font} (server/fonts)`]);
const body = [...rows]
  .sort(([a], [b]) => a.localeCompare(b))
  .map(([licence, names]) => `| ${licence} | ${[...new Set(names)].sort().join(', ')} |`);
const text = `# Licences of what is shipped

Branhearth itself: MIT. Written by \`node tests/gate/licences.mjs --write\` from package-lock.json: what runs at a farm, on any system, and what is compiled into the pages. On Node 20 better-sqlite3 is 12.11.1, also MIT.

| licence | packages |
|---|---|
${body.join('\n')}
`;
if (process.argv.includes('--write')) writeFileSync(list, text);
else if (readFileSync(list, 'utf8') !== text)
  faults.push('server/licences.md is not of today: node tests/gate/licences.mjs --write');

// The bill of materials that npm makes of the same lock file can be made.
const sbom = JSON.parse(
  execFileSync('npm', ['sbom', '--package-lock-only', '--omit=dev', '--sbom-format=cyclonedx'], {
    cwd: root,
    encoding: 'utf8',
    maxBuffer: 64 * 1024 * 1024,
    stdio: ['ignore', 'pipe', 'inherit'],
  }),
);
if (sbom.bomFormat !== 'CycloneDX' || sbom.components.length < Object.keys(ours.dependencies).length)
  faults.push('npm sbom does not list what is shipped');

for (const fault of faults) console.error(fault);
if (faults.length > 0) process.exit(1);
console.log(
  `licences: ${[...rows.values()].flat().length} packages, each under an allowed licence; npm sbom lists ${sbom.components.length}`,
);
