/** The walk-through "Add a kind of condition" of DEVELOPERS.md, followed to the letter in a copy of the sources. */
import { execFileSync, spawnSync } from 'node:child_process';
import { cpSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';

const root = process.cwd();
const copy = mkdtempSync(join(tmpdir(), 'branhearth-walkthrough-'));
const inCopy = (path: string) => join(copy, path);

const section = readFileSync('DEVELOPERS.md', 'utf8').split('## Add a kind of condition')[1]?.split('\n## ')[0] ?? '';
/** The code of each step, without the indent that keeps it in its list. */
const [declaration = '', rule = '', line = '', texts = ''] = [
  ...section.matchAll(/^ {3}```\w+\n(.*?)^ {3}```$/gms),
].map(([, code]) => (code ?? '').replaceAll(/^ {3}/gm, ''));

const change = (path: string, by: (text: string) => string) => {
  const before = readFileSync(inCopy(path), 'utf8');
  const after = by(before);
  expect(after, path).not.toBe(before);
  writeFileSync(inCopy(path), after);
};

function declare(): void {
  change('shared/conditions/conditions.ts', (text) => text.replace(/ {2}\{\n {4}kind: 'chilled'/, `${declaration}$&`));
}

function giveRule(): void {
  writeFileSync(inCopy('core/warnings/frozen.ts'), rule);
  change('core/warnings/rules.ts', (text) =>
    text
      .replace('import type { Finding }', `import { frozenFinding } from './frozen.ts';\n$&`)
      .replace('  chilled: chilledFinding,\n', `${line}$&`),
  );
}

function giveTexts(): void {
  for (const [code, text] of Object.entries(JSON.parse(texts) as Record<string, string>)) {
    const catalogue = `shared/messages/en/${code.split('.')[0]}.json`;
    change(catalogue, (all) => JSON.stringify({ ...JSON.parse(all), [code]: text }, null, 2));
  }
  execFileSync('node', ['shared/messages/make.mjs'], { cwd: copy });
}

/** Files that do not compile, of all that these lead to. */
function refusedFiles(): string[] {
  const files = [
    'core/warnings/rules.ts',
    'core/say/condition.ts',
    'core/notify/letter.ts',
    'server/services/records/pdf/record-pdf.ts',
    'web/src/ui/format/words.ts',
  ];
  const compilerOptions = { noEmit: true, incremental: false, lib: ['ES2023', 'DOM'] };
  writeFileSync(
    inCopy('tsconfig.some.json'),
    JSON.stringify({ extends: './tsconfig.json', compilerOptions, files, include: [] }),
  );
  const { stdout } = spawnSync('node', ['node_modules/.bin/tsc', '-p', 'tsconfig.some.json'], {
    cwd: copy,
    encoding: 'utf8',
  });
  return [...new Set([...stdout.matchAll(/^([^\s(]+)\(\d+,\d+\): error/gm)].map(([, file]) => file ?? ''))].sort();
}

beforeAll(() => {
  for (const path of ['core', 'shared', 'server', 'ingest', 'simulator', 'web', 'tests/helpers', 'tests/server'])
    cpSync(path, inCopy(path), { recursive: true });
  for (const path of ['package.json', 'tsconfig.json']) cpSync(path, inCopy(path));
  symlinkSync(join(root, 'node_modules'), inCopy('node_modules'));
});
afterAll(() => rmSync(copy, { recursive: true, force: true }));

test('a kind that is only declared does not compile, and the compiler names what is missing', {
  timeout: 120_000,
}, () => {
  declare();
  expect(refusedFiles()).toEqual([
    'core/say/alarm-sentence.ts',
    'core/say/phrases.ts',
    'core/warnings/rules.ts',
    'server/services/records/pdf/record-pdf.ts',
    'web/src/ui/format/words.ts',
  ]);
});

test('with its rule and its texts it compiles', { timeout: 120_000 }, () => {
  giveRule();
  giveTexts();
  expect(refusedFiles()).toEqual([]);
});

test('and is found in the API, on the pages, in the record and in a mail', { timeout: 120_000 }, async () => {
  const { ago, openFarm, site } = await of<typeof import('../server/journal/farm.ts')>('tests/server/journal/farm.ts');
  const farm = await openFarm();
  try {
    const batchId = await farm.addPile('Shed', { id: 'shed', startedAt: ago(5) });
    await farm.send('PUT', `/api/sites/${site}/probes/p1`, {});
    await farm.commit(
      'p1',
      'temperature',
      [4, 3, 2, 1, 0].map((hours) => [Date.parse(ago(hours)), -hours / 4 - 1]),
    );
    await farm.post(`/api/probes/${site}/p1/claim`, { pileId: 'shed', position: 'core', from: ago(5) });

    const { pileDetailSchema } =
      await of<typeof import('../../shared/contracts/piles.ts')>('shared/contracts/piles.ts');
    const pile = pileDetailSchema.parse((await farm.get('/api/piles/shed')).json());
    const seen = 'The core is frozen: the core is at −1 °C.';
    expect(pile.alarms).toContainEqual(expect.objectContaining({ kind: 'frozen', state: 'unacknowledged', seen }));
    expect(pile.evidence).toContainEqual(
      expect.objectContaining({ kind: 'frozen', messages: expect.objectContaining({ why: expect.anything() }) }),
    );
    expect(pile.condition).toBe('It is frozen: the core is at −1 °C.');

    const { groupAlarms } = await of<typeof import('../../web/src/features/pile/alarm-order.ts')>(
      'web/src/features/pile/alarm-order.ts',
    );
    const { warningTitle } = await of<typeof import('../../web/src/ui/format/words.ts')>('web/src/ui/format/words.ts');
    const listed = groupAlarms(pile.alarms).standing.map(({ kind, position }) => warningTitle(kind, position));
    expect(listed).toContain('Frozen');

    const record = (await farm.get(`/api/batches/${batchId}/record`)).json<{
      alarms: { kind: string; seen: string }[];
    }>();
    expect(record.alarms).toContainEqual(expect.objectContaining({ kind: 'frozen', seen }));
    expect((await farm.get(`/api/batches/${batchId}/record.pdf`)).statusCode).toBe(200);

    expect(await mailOf(farm.one.installation.journal)).toContain('is frozen');
  } finally {
    await farm.close();
  }
});

/** The sources of the copy, with the kind in them. */
const of = <Module>(path: string): Promise<Module> => import(/* @vite-ignore */ inCopy(path)) as Promise<Module>;

type Journal = import('../../shared/store/journal.ts').Journal;

/** What is mailed of the one alarm that stands. */
async function mailOf(journal: Journal): Promise<string> {
  const { alarmFacts } = await of<typeof import('../../server/monitor/pile/alarm-notices.ts')>(
    'server/monitor/pile/alarm-notices.ts',
  );
  const { contentOf } = await of<typeof import('../../server/notify/messages.ts')>('server/notify/messages.ts');
  const [record] = (await journal.alarms.open('shed')).filter(({ kind }) => (kind as string) === 'frozen');
  if (record === undefined) throw new Error('not raised');
  const notice = {
    id: 'n',
    key: 'k',
    about: 'alarm' as const,
    answer: 'first-raise' as const,
    rank: 1,
    siteId: 'saltmere-yard',
    pileId: 'shed',
    alarmId: record.id,
    personId: null,
    atMs: record.raisedAtMs,
    dueMs: record.raisedAtMs,
    facts: alarmFacts(record),
  };
  const clock = { nowMs: () => record.raisedAtMs, speed: 1 };
  const parts = { journal, clock, publicUrl: undefined } as unknown as Parameters<typeof contentOf>[0];
  const { title, sentence } = await contentOf(parts, notice, 'Ana', { timeZone: 'UTC', unit: 'C' });
  return `${title}\n${sentence}`;
}
