import pino from 'pino';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import type { OwnPile } from '../../../server/pile/watched-pile.ts';
import { PublishingChoice } from '../../../server/publish/publishing-choice.ts';
import { StatePublisher } from '../../../server/publish/state-publisher.ts';
import { unseenPile } from '../../../server/services/views/unjudged-pile.ts';
import type { PileSummary } from '../../../shared/contracts/piles.ts';
import { message } from '../../../shared/messages/message.ts';
import { partHealth } from '../../../shared/part-health.ts';

const log = pino({ level: 'silent' });
const pile = { id: 'shed', siteId: 'saltmere-yard', name: 'Shed' } as OwnPile['pile'];
const minuteMs = 60_000;

async function publisherOf(count = 1) {
  let changes: Partial<PileSummary> = {};
  let isDown = false;
  const said: string[] = [];
  const piles = Array.from({ length: count }, (_, i) => {
    const own = i === 0 ? pile : { ...pile, id: `shed-${i}` };
    return { pile: own, summary: () => ({ ...unseenPile(own, null), ...changes }) } as OwnPile;
  });
  const choice = new PublishingChoice({
    log,
    journal: { settings: { read: async () => ({ states: true }) } } as never,
  });
  await choice.start();
  const publisher = new StatePublisher({
    root: 'piles',
    clock: { nowMs: () => Date.now(), speed: 1 },
    log,
    watch: { all: () => piles, get: (id) => piles.find((one) => one.pile.id === id) },
    ingest: {
      say: (_site, { text }) => void said.push(text),
      health: () => partHealth(isDown ? 'down' : 'ok', message('health.broker.connecting')),
    },
    choice,
    events: { phaseChanged: () => {} },
    introductions: { follow: () => {}, gone: () => {}, forget: () => {} },
  });
  publisher.start();
  return {
    publisher,
    said,
    change: (next: Partial<PileSummary>) => {
      changes = next;
    },
    setDown: (down: boolean) => {
      isDown = down;
    },
  };
}

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

test('StatePublisher says a pile once while nothing changes, however often it is evaluated', async () => {
  const { publisher, said, change } = await publisherOf();
  for (let second = 0; second < 60; second++) {
    publisher.shown('shed', second % 7 === 0);
    vi.advanceTimersByTime(1_000);
  }
  expect(said).toHaveLength(1);
  change({ condition: 'It warms.' });
  publisher.shown('shed', true);
  vi.advanceTimersByTime(1_000);
  expect(said).toHaveLength(2);
});

test('StatePublisher says a busy pile every ten seconds, and at once when an alarm changed', async () => {
  const { publisher, said, change } = await publisherOf();
  for (let second = 0; second < 60; second++) {
    change({ condition: `It is ${second} now.` });
    publisher.shown('shed', false);
    vi.advanceTimersByTime(1_000);
  }
  expect(said.length).toBeLessThanOrEqual(7);
  expect(said.length).toBeGreaterThanOrEqual(5);
  const before = said.length;
  change({ condition: 'It is too hot.' });
  publisher.shown('shed', true);
  vi.advanceTimersByTime(1_000);
  expect(said.length).toBe(before + 1);
});

test('StatePublisher says all again once a broker is back, and every ten minutes', async () => {
  const { said, setDown } = await publisherOf();
  vi.advanceTimersByTime(2_000);
  setDown(true);
  vi.advanceTimersByTime(2_000);
  expect(said).toHaveLength(1);
  setDown(false);
  vi.advanceTimersByTime(2_000);
  expect(said).toHaveLength(2);
  vi.advanceTimersByTime(11 * minuteMs);
  expect(said).toHaveLength(3);
});

test('StatePublisher takes a removed pile away, also at a broker that was away meanwhile', async () => {
  const { publisher, said, setDown } = await publisherOf();
  vi.advanceTimersByTime(2_000);
  publisher.gone(pile);
  expect(said.at(-1)).toBe('');
  setDown(true);
  vi.advanceTimersByTime(2_000);
  setDown(false);
  vi.advanceTimersByTime(1_000);
  expect(said.filter((text) => text === '')).toHaveLength(2);
});

test('StatePublisher says fifty piles of many in each round', async () => {
  const { said } = await publisherOf(120);
  vi.advanceTimersByTime(1_000);
  expect(said).toHaveLength(50);
  vi.advanceTimersByTime(2_000);
  expect(said).toHaveLength(120);
});
