/** The walk-through "Add a kind of condition" of DEVELOPERS.md, followed to the letter in a copy of the sources. */
import { afterAll, expect, test } from 'vitest';
import { copySources } from './copy-of-sources.ts';

const copy = copySources('Add a kind of condition');
afterAll(() => copy.remove());
const [declaration = '', rule = '', line = '', texts = ''] = copy.steps;
const of = copy.load;

function declare(): void {
  copy.change('shared/conditions/conditions.ts', (text) =>
    text.replace(/ {2}\{\n {4}kind: 'chilled'/, `${declaration}$&`),
  );
}

function giveRule(): void {
  copy.write('core/warnings/frozen.ts', rule);
  copy.change('core/warnings/rules.ts', (text) =>
    text
      .replace('import type { Finding }', `import { frozenFinding } from './frozen.ts';\n$&`)
      .replace('  chilled: chilledFinding,\n', `${line}$&`),
  );
}

const refusedFiles = () =>
  copy.refusedFiles([
    'core/warnings/rules.ts',
    'core/say/condition.ts',
    'core/notify/alarm-content.ts',
    'server/services/records/pdf/alarm-drawing.ts',
    'web/src/ui/format/words.ts',
  ]);

test('a kind that is only declared does not compile, and the compiler names what is missing', {
  timeout: 120_000,
}, () => {
  declare();
  expect(refusedFiles()).toEqual([
    'core/say/alarm-sentence.ts',
    'core/say/phrases.ts',
    'core/warnings/rules.ts',
    'server/services/records/pdf/alarm-drawing.ts',
    'web/src/ui/format/words.ts',
  ]);
});

test('with its rule and its texts it compiles, and three files were touched', () => {
  giveRule();
  copy.giveTexts(texts);
  expect(refusedFiles()).toEqual([]);
  expect(copy.touched).toEqual([
    'core/warnings/frozen.ts',
    'core/warnings/rules.ts',
    'shared/conditions/conditions.ts',
  ]);
});

test('and is found in the API, on the pages, in the record and in a mail', async () => {
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

type Journal = import('../../shared/store/journal.ts').Journal;

/** What is mailed of the one alarm that stands. */
async function mailOf(journal: Journal): Promise<string> {
  const { alarmFacts } = await of<typeof import('../../server/pile/alarm-notices.ts')>('server/pile/alarm-notices.ts');
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
  const { title, sentence } = await contentOf(parts, notice, 'Ana', { timeZone: 'UTC', unit: 'C', language: 'en' });
  return `${title}\n${sentence}`;
}
