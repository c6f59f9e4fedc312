import { afterAll, beforeAll, expect, test } from 'vitest';
import { makeDataDir, openTestInstallation, type TestInstallation } from '../../helpers/open-test-server.ts';
import { until } from '../../helpers/until.ts';

let one: TestInstallation;
beforeAll(async () => {
  one = await openTestInstallation((await makeDataDir()).dataDir);
});
afterAll(() => one.closeAndRemove());

test('a pile that is no more is gone from open pages, also one that could never be opened here', async () => {
  let heard = '';
  const leave = one.installation.hub.add({
    write(text) {
      heard += text;
      return true;
    },
    end: () => undefined,
  });
  await one.installation.watch.reload('never-opened');
  await until('pages to hear of it', async () => (heard.includes('never-opened') ? true : undefined));
  expect(heard).toMatch(/event: pile-gone/);
  leave();
});
