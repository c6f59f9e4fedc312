/** What an installed app needs beside its pages: service worker, manifest, icons. */
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import sharp from 'sharp';
import { build, type Plugin } from 'vite';

const here = fileURLToPath(new URL('.', import.meta.url));

/** Paper of style/tokens.css, in light. */
const paper = '#f5f8f5';

const icons = [
  { file: 'icon-192.png', source: 'mound.svg', size: 192, purpose: 'any' },
  { file: 'icon-512.png', source: 'mound.svg', size: 512, purpose: 'any' },
  { file: 'icon-maskable-192.png', source: 'mound-maskable.svg', size: 192, purpose: 'maskable' },
  { file: 'icon-maskable-512.png', source: 'mound-maskable.svg', size: 512, purpose: 'maskable' },
] as const;
/** Phones that read no manifest take this one; they round its corners themselves. */
const touchIcon = { file: 'icon-touch-180.png', source: 'mound-maskable.svg', size: 180 } as const;

const manifest = {
  id: '/',
  name: 'Branhearth',
  short_name: 'Branhearth',
  description: 'How the piles are, and what to do next',
  lang: 'en',
  start_url: '/',
  scope: '/',
  display: 'standalone',
  background_color: paper,
  theme_color: paper,
  icons: icons.map(({ file, size, purpose }) => ({
    src: `/${file}`,
    sizes: `${size}x${size}`,
    type: 'image/png',
    purpose,
  })),
};

export function installable(): Plugin {
  return {
    name: 'installable',
    apply: 'build',
    async generateBundle() {
      for (const { file, source, size } of [...icons, touchIcon]) {
        const drawing = sharp(join(here, 'icons', source), { density: (72 * size) / 128 });
        this.emitFile({ type: 'asset', fileName: file, source: await drawing.resize(size, size).png().toBuffer() });
      }
      this.emitFile({ type: 'asset', fileName: 'manifest.webmanifest', source: JSON.stringify(manifest) });
    },
    // After the others, as the worker keeps what they made too.
    writeBundle: {
      order: 'post',
      sequential: true,
      async handler({ dir = '' }) {
        const names = readdirSync(dir, { recursive: true, withFileTypes: true })
          .filter((entry) => entry.isFile() && entry.name !== 'sw.js')
          .map((entry) => join(entry.parentPath, entry.name).slice(dir.length + 1))
          .sort();
        const digest = createHash('sha256');
        for (const name of names) digest.update(name).update(readFileSync(join(dir, name)));
        await buildWorker(dir, names, digest.digest('hex').slice(0, 16));
      },
    },
  };
}

/** One classic script, as old phones know no module workers. */
async function buildWorker(dir: string, names: readonly string[], digest: string): Promise<void> {
  const files = names.map((name) => (name === 'index.html' ? '/' : `/${name.replaceAll('\\', '/')}`));
  const byLanguage: Record<string, string[]> = {};
  const languageOf = (file: string) => /^\/assets\/([\w-]+)-[0-9a-f]{8}\//.exec(file)?.[1] ?? '';
  for (const file of files) {
    const language = languageOf(file);
    byLanguage[language] = [...(byLanguage[language] ?? []), file];
  }
  await build({
    configFile: false,
    root: here,
    publicDir: false,
    logLevel: 'warn',
    define: { builtFiles: JSON.stringify(byLanguage), builtDigest: JSON.stringify(digest) },
    build: {
      outDir: dir,
      emptyOutDir: false,
      target: 'es2022',
      lib: { entry: join(here, 'src/worker/worker.ts'), formats: ['iife'], name: 'worker', fileName: () => 'sw.js' },
    },
  });
}
