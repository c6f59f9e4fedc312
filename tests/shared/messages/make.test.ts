/** A folder of catalogues is all that a language needs; what differs from English is refused. */
import { spawnSync } from 'node:child_process';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { scratchFolder } from '../store/scratch.ts';

const english = {
  'pile.hot': '{isOld, select, true {It was} other {It is}} at {coreC}.',
  'pile.turns': '{turnCount, plural, =0 {Not turned} one {# turn} other {# turns}}',
};

test('a text of a page is made without need of a parser', () => {
  const page = (links: string) => ({ 'page-pile.link': `{pileCount, plural, one {# pile} other {# piles}}, ${links}` });
  const { status, faults, made } = make({ pl: polish }, { en: page('<a>all</a>'), pl: page('<a>wszystkie</a>') });
  expect([status, faults]).toEqual([0, []]);
  expect(made('en/page-pile.ts')).toContain(
    '[["pileCount",{"one":[["#"]," pile"],"other":[["#"]," piles"]},1],", ",["<","a","all"]]',
  );
  expect(made('params/page-pile.ts')).toContain('readonly a: Tag; readonly pileCount: number');
  expect(made('params.ts')).not.toContain('PagePile');
  expect(make({ pl: polish }, { en: page('<a>all</a>'), pl: page('wszystkie') }).faults).toEqual([
    'pl: page-pile.link leaves out {a}',
  ]);
});

function make(
  languages: Record<string, Record<string, string>>,
  pages: Record<string, Record<string, string>> = {},
  standing: object = { standing: 'machine' },
  ...asked: string[]
) {
  const folder = scratchFolder();
  for (const [language, texts] of Object.entries({ en: english, ...languages })) {
    mkdirSync(join(folder, language));
    if (language !== 'en') writeFileSync(join(folder, language, 'standing.json'), JSON.stringify(standing));
    writeFileSync(join(folder, language, 'pile.json'), JSON.stringify(texts));
    if (language === 'en') writeFileSync(join(folder, language, 'person.json'), JSON.stringify(nameless));
    else writeFileSync(join(folder, language, 'person.json'), JSON.stringify({ 'person.here': 'Ten komputer' }));
    const page = pages[language];
    if (page) writeFileSync(join(folder, language, 'page-pile.json'), JSON.stringify(page));
  }
  const run = (...more: string[]) =>
    spawnSync('node', ['shared/messages/make.mjs', `--in=${folder}`, ...more], { encoding: 'utf8' });
  const { status, stdout, stderr } = run(...asked);
  const made = (name: string) => readFileSync(join(folder, 'made', name), 'utf8');
  return { status, said: stdout.trim(), faults: stderr.split('\n').filter(Boolean), made, run };
}

const nameless = { 'person.here': 'This machine' };
const polish = {
  'pile.hot': 'Teraz {coreC}.',
  'pile.turns': '{turnCount, plural, =0 {Bez} one {# raz} few {# razy} many {# razy} other {# razu}}',
};

test('a language of its own is made by its folder alone, with the plurals that it has', () => {
  const { status, faults, made } = make({ pl: polish });
  expect([status, faults]).toEqual([0, []]);
  expect(made('languages.ts')).toContain("['en', 'pl']");
});

test.each([
  ['a missing text', { 'pile.hot': undefined }, 'pl: pile.hot is missing'],
  ['a text that English does not have', { 'pile.cold': '{coreC}' }, 'pl: pile.cold is not in English'],
  ['an unknown parameter', { 'pile.hot': '{coreC} {airC}' }, 'pl: pile.hot has an unknown {airC}'],
  ['a parameter left out', { 'pile.hot': 'Teraz.' }, 'pl: pile.hot leaves out {coreC}'],
  [
    'another choice',
    { 'pile.hot': '{isOld, select, yes {Był} other {Jest}} {coreC}' },
    'pl: pile.hot chooses otherwise by {isOld} than English: true, other',
  ],
  [
    'an exact number that English does not set apart',
    { 'pile.turns': '{turnCount, plural, =0 {Bez} =1 {raz} other {# razy}}' },
    'pl: pile.turns chooses otherwise by {turnCount} than English: =0, one, other',
  ],
  [
    'a plural that the language does not have',
    { 'pile.turns': '{turnCount, plural, =0 {Bez} two {dwa} other {# razy}}' },
    'pl: pile.turns has a plural of {turnCount} that the language does not: two',
  ],
])('%s is refused', (_what, change, fault) => {
  const { status, faults } = make({ pl: JSON.parse(JSON.stringify({ ...polish, ...change })) });
  expect([status, faults]).toEqual([1, [fault]]);
});

const draft = { standing: 'draft' };
const { 'pile.turns': _, ...lacking } = polish;

test('a draft may lack texts, is offered to nobody, and says how many it lacks', () => {
  const { status, said, faults, made } = make({ pl: lacking }, {}, draft);
  expect([status, faults, said]).toEqual([0, [], 'pl: a draft, which lacks 1 texts']);
  expect(made('languages.ts')).toContain("languages = ['en'] as const");
});

test('a draft is held to what English says as any other', () => {
  const { status, faults } = make({ pl: { 'pile.hot': '{coreC} {airC}', 'pile.cold': '' } }, {}, draft);
  expect([status, faults]).toEqual([1, ['pl: pile.hot has an unknown {airC}', 'pl: pile.cold is not in English']]);
});

test('a draft is offered where one asks to look at it, until the next time', () => {
  const { made, run } = make({ pl: lacking }, {}, draft, '--with-drafts');
  expect(made('languages.ts')).toContain("languages = ['en', 'pl'] as const");
  expect(run('--check').stderr).toContain('made/languages.ts is not what its catalogue makes');
  run();
  expect(made('languages.ts')).toContain("languages = ['en'] as const");
});

test('what a machine made is named as that until a person has read it', () => {
  expect(make({ pl: polish }).made('languages.ts')).toContain("machineMade: readonly string[] = ['pl']");
  const read = { standing: 'read', by: 'Ola Lis', on: '2031-05-02' };
  expect(make({ pl: polish }, {}, read).made('languages.ts')).toContain('machineMade: readonly string[] = []');
});

test.each([
  ['that nobody is named in', { standing: 'read', on: '2031-05-02' }],
  ['of a kind that there is not', { standing: 'good' }],
])('a standing %s is refused, and the language with it', (_what, standing) => {
  const { status, faults, made } = make({ pl: polish }, {}, standing);
  expect(status).toBe(1);
  expect(faults.join(' ')).toContain('pl: standing.json is missing or not as it should be');
  expect(made('languages.ts')).not.toContain('pl');
});
