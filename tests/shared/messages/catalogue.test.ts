import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { readTexts } from '../../../shared/messages/catalogues.ts';

const pages = execFileSync('git', ['ls-files', 'shared/messages/en/page-*.json'], { encoding: 'utf8' });
const pageCodes = pages
  .split('\n')
  .filter(Boolean)
  .flatMap((file) => Object.keys(JSON.parse(readFileSync(file, 'utf8')) as object));

const git = (...args: string[]) => execFileSync('git', args, { encoding: 'utf8', maxBuffer: 64 * 1024 * 1024 });

test('what is made from the catalogues is as they would make it', () => {
  expect(() => execFileSync('node', ['shared/messages/make.mjs', '--check'], { stdio: 'pipe' })).not.toThrow();
});

/** Said no more, and still read: alarms and notices were kept with it. */
const onlyInRows = ['caution.hot-handful'];

test('no text of the catalogue is said by nobody', () => {
  const sources = git(
    'grep',
    '-hoE',
    "['`][a-z-]+\\.[a-z0-9.\x24{}A-Za-z-]+['`]",
    '--',
    'core',
    'server',
    'ingest',
    'web',
    'simulator',
    'shared',
    ':!shared/messages/made',
  );
  const said = new Set(sources.split('\n').map((literal) => literal.slice(1, -1)));
  // A code may be put together from a kind: `alarm.is.${kind}` says every "alarm.is.…".
  const isSaid = [...said].map(
    (code) => new RegExp(`^${code.replaceAll('.', '\\.').replaceAll(/\$\{[^}]*\}/g, '.+')}$`),
  );
  // Chapters of the manual name their texts in parts (web/src/features/help/chapters.ts), which its own test holds.
  const codes = [...Object.keys(readTexts('en')), ...pageCodes].filter((code) => !code.startsWith('page-help.'));
  const unsaid = codes.filter((code) => !onlyInRows.includes(code) && !isSaid.some((pattern) => pattern.test(code)));
  expect(unsaid).toEqual([]);
});

test('core holds no sentences', () => {
  expect(() => execFileSync('node', ['tests/gate/prose.mjs'], { stdio: 'pipe' })).not.toThrow();
});
