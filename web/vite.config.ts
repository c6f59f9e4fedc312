import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vite';
import { inEachLanguage } from './languages.config.ts';
import { layered } from './layers.ts';
import { lessOfZod } from './less-of-zod.ts';
import { installable } from './worker.config.ts';

export default defineConfig({
  root: fileURLToPath(new URL('.', import.meta.url)),
  plugins: [layered(fileURLToPath(new URL('src/', import.meta.url))), lessOfZod(), inEachLanguage(), installable()],
  worker: { plugins: () => [lessOfZod()] },
  oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
  build: {
    // Browsers without it ask for each part as they come to it: the page is the same, and half a kB lighter.
    modulePreload: { polyfill: false },
    outDir: '../.build/web',
    emptyOutDir: true,
    target: 'es2022',
    // What took how long in a build is nothing that whoever installs can act on.
    rolldownOptions: {
      checks: { pluginTimings: false },
      // One script for the first page: a browser has six lines to a server, and each turn of a slow one takes as long as 30 kB.
      output: { codeSplitting: { groups: [{ name: 'first', tags: ['$initial'] }] } },
    },
  },
  server: { proxy: { '/api': 'http://127.0.0.1:4180', '/metrics': 'http://127.0.0.1:4180' } },
});
