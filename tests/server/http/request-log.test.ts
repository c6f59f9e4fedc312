import { Writable } from 'node:stream';
import { pino } from 'pino';
import { expect, test } from 'vitest';
import { makeDataDir, openTestInstallation } from '../../helpers/open-test-server.ts';

test.each([
  ['info', 0],
  ['debug', 1],
] as const)('the log at %s has %i lines for a request', async (level, lines) => {
  const folder = await makeDataDir();
  const written: string[] = [];
  const log = pino(
    { level },
    new Writable({
      write: (chunk, _encoding, done) => {
        written.push(String(chunk));
        done();
      },
    }),
  );
  const one = await openTestInstallation(folder.dataDir, {}, undefined, {}, undefined, log);
  expect((await one.app.inject('/api/health')).statusCode).toBe(200);
  await one.close();
  await folder.remove();
  expect(written.filter((line) => line.includes('/api/health'))).toHaveLength(lines);
});
