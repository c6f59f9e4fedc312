/** Holds the arrows between the rooms, and finds circles: a line for each fault, and for each node: module within reach of core. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = dirname(dirname(dirname(fileURLToPath(import.meta.url))));

/** Which rooms, or parts of one, each room may import; a room may always import itself. */
const mayImport = {
  shared: [],
  core: ['shared'],
  ingest: ['shared', 'core'],
  server: ['shared', 'core', 'ingest'],
  // `ingest/probes` is files for boards, which the help fills in.
  web: ['shared', 'core', 'simulator/model', 'simulator/practice', 'ingest/probes'],
  simulator: ['shared'],
  tests: ['shared', 'core', 'ingest', 'server', 'web', 'simulator'],
};
/** Rooms and parts whose files, and all they reach, must run in a page: no node: module, no database. */
const runsInAPage = ['core', 'web', 'simulator/model', 'simulator/practice', 'ingest/probes'];

/** Parts that work without knowing who asks them and who puts them together; `app` alone knows all. */
const mustNotImport = [
  {
    parts: ['services', 'pile', 'monitor', 'cluster', 'notify', 'retention', 'health', 'beside', 'backup', 'move'],
    never: ['server/http', 'server/app'],
  },
  { parts: ['http'], never: ['server/app'] },
];

function sourcesBelow(folder) {
  if (!existsSync(folder)) return [];
  return readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) return entry.name === 'node_modules' ? [] : sourcesBelow(path);
    return /\.(ts|tsx|mts)$/.test(entry.name) && !/(\.config|\.d)\.ts$/.test(entry.name) ? [path] : [];
  });
}

const importLine =
  /(?:^|\n)\s*(?:import|export)\s[^'"]*?from\s*['"]([^'"]+)['"]|(?:^|\n)\s*import\s*['"]([^'"]+)['"]|\bimport\(\s*['"]([^'"]+)['"]\s*\)|new URL\(\s*['"](\.[^'"]+\.ts)['"]/g;

/** file -> imported files of ours, and names of modules that are not ours */
const sources = new Map();
for (const room of Object.keys(mayImport)) {
  for (const path of sourcesBelow(join(root, room))) {
    const ours = [];
    const foreign = [];
    for (const match of readFileSync(path, 'utf8').matchAll(importLine)) {
      const name = match[1] ?? match[2] ?? match[3] ?? match[4];
      if (name.startsWith('.')) ours.push(relative(root, join(dirname(path), name.split('?')[0])));
      else foreign.push(name);
    }
    sources.set(relative(root, path), { ours, foreign });
  }
}

const within = (path, place) => path === place || path.startsWith(`${place}/`);
const faults = [];

for (const [path, { ours }] of sources) {
  const room = path.split('/')[0];
  for (const imported of ours) {
    const allowed = [room, ...mayImport[room]];
    if (!allowed.some((place) => within(imported, place)))
      faults.push(`against the arrows: ${path} imports ${imported}`);
    if (/\.tsx?$/.test(imported) && !sources.has(imported)) faults.push(`no such file: ${path} imports ${imported}`);
  }
}

for (const { parts, never } of mustNotImport) {
  for (const [path, { ours }] of sources) {
    if (!parts.some((part) => within(path, `server/${part}`))) continue;
    for (const imported of ours) {
      if (never.some((part) => within(imported, part))) faults.push(`against the arrows: ${path} imports ${imported}`);
    }
  }
}

/** Everything a file reaches, itself included. */
function reach(path, seen = new Set()) {
  if (seen.has(path)) return seen;
  seen.add(path);
  for (const imported of sources.get(path)?.ours ?? []) reach(imported, seen);
  return seen;
}
for (const path of sources.keys()) {
  if (!runsInAPage.some((place) => within(path, place))) continue;
  for (const reached of reach(path)) {
    for (const name of sources.get(reached)?.foreign ?? []) {
      if (name.startsWith('node:')) faults.push(`must run in a page: ${path} reaches ${name} in ${reached}`);
    }
  }
}

const done = new Set();
function findCircles(path, trail) {
  const at = trail.indexOf(path);
  if (at >= 0) {
    faults.push(`circle: ${[...trail.slice(at), path].join(' -> ')}`);
    return;
  }
  if (done.has(path)) return;
  for (const imported of sources.get(path)?.ours ?? []) findCircles(imported, [...trail, path]);
  done.add(path);
}
for (const path of sources.keys()) findCircles(path, []);

/** Rooms and parts in which no folder may lead back to itself by way of others: what is read first is clear there. */
const layered = ['core', 'ingest', 'server', 'shared/store', 'simulator', 'web'];
const folders = new Map();
for (const [path, { ours }] of sources) {
  const part = layered.find((one) => within(path, one));
  if (part === undefined) continue;
  for (const imported of ours) {
    if (!within(imported, part) || dirname(imported) === dirname(path)) continue;
    const reached = folders.get(dirname(path)) ?? new Map();
    folders.set(dirname(path), reached.set(dirname(imported), `${path} imports ${imported}`));
  }
}
const unfolded = new Set();
function findFolderCircles(folder, trail) {
  const at = trail.findIndex(([name]) => name === folder);
  if (at >= 0) {
    faults.push(
      `folders in a circle: ${trail
        .slice(at)
        .map(([, by]) => by)
        .join('; ')}`,
    );
    return;
  }
  if (unfolded.has(folder)) return;
  for (const [next, by] of folders.get(folder) ?? []) findFolderCircles(next, [...trail, [folder, by]]);
  unfolded.add(folder);
}
for (const folder of folders.keys()) findFolderCircles(folder, []);

/** Rooms in which no two folders side by side import each other, each with all that is below it. */
const parted = ['core', 'ingest', 'server', 'shared', 'simulator'];
const across = new Map();
for (const [path, { ours }] of sources) {
  if (!parted.some((room) => within(path, room))) continue;
  for (const imported of ours) {
    const [one, other] = [path.split('/'), imported.split('/')];
    const level = one.findIndex((name, index) => name !== other[index]);
    if (level < 1 || level >= one.length - 1 || level >= other.length - 1) continue;
    const [from, to] = [one, other].map((names) => names.slice(0, level + 1).join('/'));
    across.set(`${from} ${to}`, `${path} imports ${imported}`);
    const back = across.get(`${to} ${from}`);
    if (back) faults.push(`folders side by side that need each other: ${path} imports ${imported}; ${back}`);
  }
}

if (faults.length > 0) {
  console.error([...new Set(faults)].join('\n'));
  process.exit(1);
}
console.log(
  `arrows: ${sources.size} files, none runs against an arrow, no circle of files, nor of folders in ${layered.join(', ')}; none beside another needs it back`,
);
