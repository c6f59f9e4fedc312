import { execFileSync } from 'node:child_process';
import { expect, test } from 'vitest';
import { enTexts } from '../../../shared/messages/made/en.ts';

const git = (...args: string[]) => execFileSync('git', args, { encoding: 'utf8', maxBuffer: 64 * 1024 * 1024 });

test('what is made from the catalogues is as they would make it', () => {
  expect(() => execFileSync('node', ['shared/messages/make.mjs', '--check'], { stdio: 'pipe' })).not.toThrow();
});

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
  const started = [...said].filter((code) => code.includes('$')).map((code) => code.slice(0, code.indexOf('$')));
  const unsaid = Object.keys(enTexts).filter(
    (code) => !said.has(code) && !started.some((start) => start.includes('.') && code.startsWith(start)),
  );
  expect(unsaid).toEqual([]);
});

test('core holds no sentences', () => {
  expect(() => execFileSync('node', ['tests/gate/prose.mjs'], { stdio: 'pipe' })).not.toThrow();
});
