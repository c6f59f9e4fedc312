/** What must stand in the lock file that `npm install` does not write there by itself. */
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';

interface Lock {
  readonly packages: Record<string, { readonly version: string; readonly gypfile?: boolean; resolved?: string }>;
}
const lock = (path: string) => JSON.parse(readFileSync(path, 'utf8')) as Lock;

test('package-lock.json says of better-sqlite3 that it is not compiled: add "gypfile": false again after npm install', () => {
  const driver = lock('package-lock.json').packages['node_modules/better-sqlite3'];
  expect(driver).toMatchObject({ version: expect.stringMatching(/^13\./), gypfile: false });
});

test('lock files name no address of a registry', () => {
  for (const path of ['package-lock.json', 'server/node-20/package-lock.json', 'tests/node-lines/package-lock.json']) {
    const named = Object.entries(lock(path).packages).filter(([, { resolved }]) => resolved?.startsWith('http'));
    expect(named).toEqual([]);
  }
});
