import fc from 'fast-check';
import pino from 'pino';
import { expect, test } from 'vitest';
import { hubPresses } from '../../../server/publish/hub-presses.ts';
import type { HubChoice } from '../../../shared/contracts/published.ts';
import type { AlarmRecord } from '../../../shared/store/journal.ts';

const nowMs = Date.UTC(2031, 4, 1, 6);
const at = (ms: number) => JSON.stringify({ at: new Date(ms).toISOString() });

function hub(choice: HubChoice | null = 'acknowledges', more: Partial<AlarmRecord> = {}) {
  const done: string[] = [];
  const rows: string[] = [];
  const alarm = { id: 'a1', state: 'unacknowledged', raisedAtMs: nowMs - 60_000, ...more } as AlarmRecord;
  const listener = hubPresses({
    clock: { nowMs: () => nowMs, speed: 1 },
    log: pino({ level: 'silent' }),
    journal: { alarms: { open: async () => [alarm] } as never },
    choice: { hub: () => choice ?? undefined },
    watch: {
      get: (id) => (id === 'shed' ? ({ pile: { siteId: 'yard' } } as never) : undefined),
      handleAlarm: async (id, { by }) => done.push(`${id} ${by}`) > 0,
    },
    trail: {
      settle: async () => {},
      addOf: async ({ name, via }, { subject }) => void rows.push(`${name} ${via} ${subject}`),
    },
    cameUp() {},
  });
  const press = (text: string, change: { site?: string; pile?: string; isKept?: boolean } = {}) =>
    listener.onPress({ site: 'yard', pile: 'shed', isKept: false, text, ...change });
  return { press, done, rows };
}

const rows: [
  what: string,
  text: string,
  change: Parameters<ReturnType<typeof hub>['press']>[1],
  refused: string | null,
][] = [
  ['of now', at(nowMs), {}, null],
  ['of two minutes ago', at(nowMs - 120_000), {}, 'nothing stood'],
  ['of longer ago', at(nowMs - 120_001), {}, 'refusal.press.old'],
  ['two minutes ahead', at(nowMs + 120_000), {}, null],
  ['further ahead', at(nowMs + 120_001), {}, 'refusal.press.old'],
  ['that is kept', at(nowMs), { isKept: true }, 'refusal.press.kept'],
  ['of another site', at(nowMs), { site: 'terrace' }, 'refusal.press.pile'],
  ['of no pile', at(nowMs), { pile: 'barn' }, 'refusal.press.pile'],
  ['without a time', '{}', {}, 'refusal.press.time'],
  ['that is a word', 'PRESS', {}, 'refusal.press.time'],
  ['that is empty', '', {}, 'refusal.press.time'],
  ['as the warning began', at(nowMs - 60_000), {}, null],
  ['just before the warning began', at(nowMs - 60_001), {}, 'nothing stood'],
];
test.each(rows)('a press %s', async (_what, text, change, refused) => {
  const { press, done, rows: audited } = hub();
  const error = await press(text, change);
  expect(error?.said.code ?? (done.length === 0 ? 'nothing stood' : null)).toBe(refused);
  expect(done).toEqual(refused === null ? ['a1 Home automation hub'] : []);
  expect(audited).toEqual(refused === null ? ['Home automation hub hub a1'] : []);
});

test.each([null, 'off', 'looks-on'] as const)(
  'a press counts for nothing while hubs are offered: %s',
  async (choice) => {
    const { press, done } = hub(choice);
    expect((await press(at(nowMs)))?.said.code).toBe('refusal.press.off');
    expect(done).toEqual([]);
  },
);

test.each(['acknowledged', 'shelved', 'out-of-service'] as const)(
  'a press leaves a warning alone that is %s',
  async (state) => {
    const { press, done } = hub('acknowledges', { state });
    expect(await press(at(nowMs))).toBeUndefined();
    expect(done).toEqual([]);
  },
);

test('whatever a hub sends is answered or refused, and without a time of these minutes nothing is acknowledged', async () => {
  const texts = fc.oneof(
    fc.string(),
    fc.json(),
    fc.record({ at: fc.oneof(fc.double(), fc.string(), fc.anything()) }).map((one) => JSON.stringify(one) ?? ''),
  );
  await fc.assert(
    fc.asyncProperty(texts, fc.boolean(), async (text, isKept) => {
      const { press, done } = hub();
      const error = await press(text, { isKept });
      expect([error?.reason, done]).toEqual(['press-of-no-use', []]);
    }),
    { numRuns: 300 },
  );
});
