import { execFileSync } from 'node:child_process';
import { constants, openSync, readSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { openLog } from '../../server/log.ts';
import { makeDataDir } from '../helpers/open-test-server.ts';
import { until } from '../helpers/until.ts';

test('a log that nobody reads is kept within bounds, and says how many lines were lost once somebody does', async () => {
  const { dataDir, remove } = await makeDataDir();
  const pipe = join(dataDir, 'log');
  execFileSync('mkfifo', [pipe]);
  const fd = openSync(pipe, constants.O_RDWR | constants.O_NONBLOCK);
  const log = openLog('info', { fd, mostBytes: 50_000 });
  const most = 5_000;
  // A pipe of Linux takes 64 KiB, so most of these have no room anywhere.
  for (let line = 0; line < most; line += 1) log.info({ line, more: 'x'.repeat(300) }, 'something happened');

  let read = '';
  const chunk = Buffer.alloc(65_536);
  const lines = () => {
    try {
      read += chunk.subarray(0, readSync(fd, chunk)).toString();
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code !== 'EAGAIN') throw error;
    }
    return read.split('\n');
  };
  const said = await until('the line on what was lost', () => lines().find((line) => line.includes('were lost')));
  const { lines: lost } = JSON.parse(said) as { lines: number };
  const kept = read.split('\n').filter((line) => line.includes('something happened')).length;
  expect(lost + kept).toBe(most);
  expect(kept).toBeLessThan(500);
  await remove();
});
