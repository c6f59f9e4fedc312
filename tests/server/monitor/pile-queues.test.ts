import { expect, test } from 'vitest';
import { PileQueues } from '../../../server/monitor/pile-queues.ts';

test('work on one pile is done one after the other, and no pile waits for another', async () => {
  const queues = new PileQueues();
  const done: string[] = [];
  let open = () => {};
  const gate = new Promise<void>((resolve) => {
    open = resolve;
  });
  const first = queues.run('shed', async () => {
    await gate;
    done.push('shed 1');
  });
  const second = queues.run('shed', async () => done.push('shed 2'));
  await queues.run('bay', async () => done.push('bay 1'));
  open();
  await Promise.all([first, second]);
  expect(done).toEqual(['bay 1', 'shed 1', 'shed 2']);
});

test('work that fails is said to whoever asked for it, and what waits behind it is done', async () => {
  const queues = new PileQueues();
  const failing = queues.run('shed', async () => {
    throw new Error('the store is away');
  });
  const next = queues.run('shed', async () => 'done');
  await expect(failing).rejects.toThrow('the store is away');
  expect(await next).toBe('done');
});
