import { expect, test } from 'vitest';
import { CommitQueue } from '../../ingest/commit/commit-queue.ts';
import type { Reading } from '../../shared/reading.ts';
import { memoryReadingsStore } from '../helpers/memory-readings-store.ts';
import { until } from '../helpers/until.ts';

const reading = (atMs: number, value = 40): Reading => ({
  site: 's',
  probe: 'p',
  quantity: 'temperature',
  value,
  atMs,
});
const turn = () => new Promise((resolve) => setImmediate(resolve));

function open(options: { batchReadings?: number; capacity?: number; capacityBytes?: number } = {}) {
  const store = memoryReadingsStore();
  const acknowledged: number[] = [];
  const log: string[] = [];
  const queue = new CommitQueue<number>({
    store,
    acknowledge: (tickets) => acknowledged.push(...tickets),
    committed: (_, { newCount, duplicateCount }) => log.push(`committed ${newCount} new ${duplicateCount} again`),
    failed: (error) => log.push(`failed ${error instanceof Error ? error.message : error}`),
    recovered: () => log.push('recovered'),
    firstRetryMs: 5,
    longestRetryMs: 10,
    ...options,
  });
  return { store, queue, acknowledged, log };
}

test('one commit takes everything that came in one turn of the event loop', async () => {
  const { store, queue, acknowledged } = open();
  for (let index = 0; index < 100; index += 1) queue.add([reading(index)], index);
  expect(acknowledged).toEqual([]);
  expect(await queue.drain(1_000)).toBe(true);
  expect(store.batches).toEqual([100]);
  expect(acknowledged).toEqual(Array.from({ length: 100 }, (_, index) => index));
});

test('nothing is acknowledged while the store has the batch, and what comes meanwhile is the next one', async () => {
  const { store, queue, acknowledged } = open();
  store.hold();
  queue.add([reading(1)], 1);
  await until('the store to have the batch', () => store.holding() || undefined);
  queue.add([reading(2)], 2);
  queue.add([reading(3)], 3);
  await turn();
  expect([acknowledged, queue.waiting()]).toEqual([[], { readings: 3, messages: 3 }]);
  store.letGo();
  await queue.drain(1_000);
  expect([acknowledged, store.batches]).toEqual([
    [1, 2, 3],
    [1, 2],
  ]);
});

test('messages that wait take up no more than so many bytes, and room comes back as they are kept', async () => {
  const { store, queue } = open({ capacityBytes: 1_000 });
  store.hold();
  queue.add([reading(1)], 1, 600);
  expect(queue.hasRoom()).toBe(true);
  queue.add([reading(2)], 2, 400);
  expect(queue.hasRoom()).toBe(false);
  let roomAgain = false;
  queue.whenRoom(() => {
    roomAgain = true;
  });
  await until('the store to have the batch', () => store.holding() || undefined);
  expect(roomAgain).toBe(false);
  store.letGo();
  await queue.drain(1_000);
  expect([roomAgain, queue.hasRoom()]).toEqual([true, true]);
});

test('a batch ends at its size', async () => {
  const { store, queue } = open({ batchReadings: 10 });
  for (let index = 0; index < 35; index += 1) queue.add([reading(index)], index);
  await queue.drain(1_000);
  expect(store.batches).toEqual([10, 10, 10, 5]);
});

test('a message without readings is acknowledged without a commit, but not before those received earlier', async () => {
  const { store, queue, acknowledged } = open();
  queue.add([], 0);
  await queue.drain(1_000);
  expect([acknowledged, store.batches]).toEqual([[0], []]);
  store.hold();
  queue.add([reading(1)], 1);
  await until('the store to have the batch', () => store.holding() || undefined);
  queue.add([], 2);
  await turn();
  expect(acknowledged).toEqual([0]);
  store.letGo();
  await queue.drain(1_000);
  expect(acknowledged).toEqual([0, 1, 2]);
});

test('a store that fails keeps everything waiting, and is asked again until it takes the same batch', async () => {
  const { store, queue, acknowledged, log } = open();
  store.failWith('disk full');
  queue.add([reading(1), reading(2)], 1);
  await until('a second failure', () => (log.length >= 2 ? true : undefined));
  expect([acknowledged, queue.failing(), queue.waiting().readings]).toEqual([[], true, 2]);
  expect(await queue.drain(1_000)).toBe(false); // no use in waiting now
  store.failWith(undefined);
  await until('the commit', () => acknowledged[0]);
  expect([acknowledged, queue.failing(), store.batches]).toEqual([[1], false, [2]]);
  expect(log.slice(0, 2)).toEqual(['failed disk full', 'failed disk full']);
  expect(log.slice(-2)).toEqual(['recovered', 'committed 2 new 0 again']);
});

test('duplicates are acknowledged like new ones', async () => {
  const { queue, acknowledged, log } = open();
  queue.add([reading(1)], 1);
  queue.add([reading(1)], 2);
  await queue.drain(1_000);
  expect([acknowledged, log]).toEqual([[1, 2], ['committed 1 new 1 again']]);
});

test('hasRoom() ends at the capacity, and whenRoom() calls back once the store took something', async () => {
  const { store, queue } = open({ capacity: 3 });
  store.hold();
  let called = 0;
  queue.add([reading(1)], 1);
  queue.add([reading(2)], 2);
  expect(queue.hasRoom()).toBe(true);
  queue.add([reading(3)], 3);
  expect(queue.hasRoom()).toBe(false);
  queue.whenRoom(() => {
    called += 1;
  });
  await turn();
  expect(called).toBe(0);
  store.letGo();
  await queue.drain(1_000);
  expect([called, queue.hasRoom()]).toEqual([1, true]);
});

test('messages without readings count against the capacity too', () => {
  const { store, queue } = open({ capacity: 3 });
  store.hold();
  for (let index = 0; index < 3; index += 1) queue.add([], index);
  expect(queue.hasRoom()).toBe(false);
});

test('stop() leaves what was not kept unacknowledged', async () => {
  const { store, queue, acknowledged, log } = open();
  store.failWith('gone');
  queue.add([reading(1)], 1);
  await until('the first failure', () => (log.length > 0 ? true : undefined));
  queue.stop();
  store.failWith(undefined);
  await new Promise((resolve) => setTimeout(resolve, 40));
  expect([acknowledged, store.batches]).toEqual([[], []]);
});
