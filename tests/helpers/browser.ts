/** The system's own Chromium, and the pages built from the sources as they stand. */
import { existsSync, mkdirSync, rmdirSync, writeFileSync } from 'node:fs';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { type Browser, chromium } from 'playwright-core';
import { build, type Plugin } from 'vite';
import { inject } from 'vitest';
import type {} from './folder-of-run.ts'; // names what a run provides
import { until } from './until.ts';

/** The one without a desktop starts in less than half of the time; what pages do is the same, but for push messages. */
const lightPath = '/usr/lib/chromium/chromium-headless-shell';
const wholePath = '/usr/bin/chromium';
const chromiumPath = [lightPath, wholePath].find((path) => existsSync(path));

export const hasChromium = chromiumPath !== undefined;
/** Only the whole one takes push messages. */
export const hasPush = existsSync(wholePath);
if (!hasChromium) {
  console.warn(
    '\n*** NOT TESTED in a real browser: chromium is not installed (Debian: apt-get install chromium-headless-shell) ***\n',
  );
}

export function launchBrowser({ takesPush = false } = {}): Promise<Browser> {
  const executablePath = takesPush ? wholePath : chromiumPath;
  return chromium.launch({
    ...(executablePath !== undefined && { executablePath }),
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
    ],
  });
}

export interface BuiltPages {
  readonly dir: string;
  remove(): Promise<void>;
}

/**
 * Built into a folder of its own, so that what stands in .build/ is left alone: once a run, except where plugins make other pages of
 * them.
 */
export async function buildPages(plugins: readonly Plugin[] = []): Promise<BuiltPages> {
  if (plugins.length === 0) return { dir: await asShipped(inject('folderOfRun')), remove: async () => undefined };
  const dir = await mkdtemp(join(tmpdir(), 'branhearth-pages-'));
  await buildInto(dir, plugins);
  return { dir, remove: () => rm(dir, { recursive: true, force: true }) };
}

/** The worker that comes first builds them, the others wait; where it fails, the next one tries. */
async function asShipped(folder: string): Promise<string> {
  const [begun, built, dir] = ['pages-begun', 'pages-built', 'pages'].map((name) => join(folder, name)) as [
    string,
    string,
    string,
  ];
  return until('the built pages', async () => {
    if (existsSync(built)) return dir;
    try {
      mkdirSync(begun);
    } catch {
      return undefined;
    }
    try {
      await buildInto(dir, []);
      writeFileSync(built, '');
    } finally {
      rmdirSync(begun);
    }
    return dir;
  });
}

async function buildInto(dir: string, plugins: readonly Plugin[]): Promise<void> {
  await build({
    configFile: join(fileURLToPath(new URL('../../web', import.meta.url)), 'vite.config.ts'),
    logLevel: 'error',
    plugins: [...plugins],
    build: { outDir: dir, emptyOutDir: true },
  });
}
