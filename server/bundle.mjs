/**
 * Programs for Node in few files instead of one for each source: a start reads 89, where it read 770. What several programs
 * share, and what waits until it is asked for, are chunks of their own. Names stay as they are written, so a stack still says where.
 * A process of its own, as its memory shall be free again when the pages are built: `node server/bundle.mjs JSON`.
 */
import { existsSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { rolldown } from 'rolldown';

/** Libraries that every start loads go into it, with what they bring. All others stay packages: native ones, and what is seldom needed. */
const ofEveryStart = new Set([
  '@fastify/compress',
  '@fastify/cookie',
  '@fastify/helmet',
  '@fastify/rate-limit',
  '@fastify/static',
  'aedes',
  'fastify',
  'fastify-type-provider-zod',
  'intl-messageformat',
  'kysely',
  'mqtt-packet',
  'p-limit',
  'pino',
  'secure-json-parse',
  'zod',
]);

const isOurs = (path) => !path.includes('/node_modules/');
const packageOf = (name) => name.split('/', name.startsWith('@') ? 2 : 1).join('/');

/** @returns whether an import stays one. */
function staysPackage(name, importer) {
  if (name.startsWith('node:')) return true;
  if (importer === undefined || /^[./\0]/.test(name) || !isOurs(importer)) return false;
  return !ofEveryStart.has(packageOf(name));
}

/**
 * A source finds what lies beside it (workers, fonts, catalogues, package.json) by `import.meta.url`. In a chunk that is still the
 * place which the source has, below `.build/` in place of the root. What it starts from there is made a program too.
 *
 * @param starts Rooms whose programs belong to this bundle.
 */
function placesOfSources({ root, programs, starts }) {
  const built = (path) => relative(root, path).replace(/\.ts$/, '.js');
  return {
    name: 'places-of-sources',
    transform: {
      filter: { id: /\.ts$/, code: 'import.meta.url' },
      handler(code, id) {
        if (!isOurs(id)) return null;
        for (const [, name] of code.matchAll(/new URL\('(\.[^']+)\.js', import\.meta\.url\)/g)) {
          const path = relative(root, join(dirname(id), name));
          const isOfThese = starts.includes(path.split('/')[0]) && !programs.includes(path);
          if (isOfThese && existsSync(join(root, `${path}.ts`)))
            this.emitFile({ type: 'chunk', id: join(root, `${path}.ts`), fileName: `${path}.js` });
        }
        const place = `new URL(${JSON.stringify(built(id))}, import.meta.built).href`;
        return { code: code.replaceAll('import.meta.url', place), map: null };
      },
    },
    renderChunk(code, { fileName }) {
      if (!code.includes('import.meta.built')) return null;
      const up = join(relative(dirname(fileName), ''), '/');
      return {
        code: code.replaceAll('import.meta.built', `new URL(${JSON.stringify(up)}, import.meta.url)`),
        map: null,
      };
    },
  };
}

/**
 * @param programs Paths of sources below `root`, without their ending; each is written to the same path below `into`.
 * @param chunks Where below `into` the others are written.
 */
async function bundle({ root, into, programs, starts, chunks }) {
  const build = await rolldown({
    cwd: root,
    platform: 'node',
    input: Object.fromEntries(programs.map((path) => [path, join(root, `${path}.ts`)])),
    external: staysPackage,
    plugins: [placesOfSources({ root, programs, starts })],
    transform: { target: 'node20.19' },
  });
  try {
    await build.write({
      dir: into,
      entryFileNames: '[name].js',
      chunkFileNames: `${chunks}/[name].js`,
      // A text with a single letter beyond Latin takes two bytes for each of its own, and a chunk is one text.
      charset: 'ascii',
      comments: { legal: true, annotation: false, jsdoc: false },
      minify: false,
      minifyInternalExports: false,
    });
  } finally {
    await build.close();
  }
}

await bundle(JSON.parse(process.argv[2]));
