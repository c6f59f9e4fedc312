// The only owner's row is damaged: the start says what to do, and lets nobody become an owner by it.
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { hashPassword } from '../../server/services/people/passwords.ts';
import { openSqliteJournal } from '../../shared/store/journal/sqlite-journal.ts';
import { makeDataDir } from '../helpers/open-test-server.ts';
import { passwordOf } from '../helpers/people.ts';
import { spawnInstallation } from '../helpers/spawn-server.ts';
import { besideSqlite } from '../shared/store/beside-sqlite.ts';
import { fillEveryTable } from '../shared/store/damage.ts';

test('npm start without an owner that can be read says what to do, and offers nobody the place of the first one', async () => {
  const { dataDir, remove } = await makeDataDir();
  const path = join(dataDir, 'journal.db');
  const journal = await openSqliteJournal(path);
  await fillEveryTable(journal);
  await journal.people.renewHash('ada', await hashPassword(passwordOf('Ada')));
  await journal.close();
  await besideSqlite(path).set({ table: 'person', column: 'role', type: 'text' }, { id: 'ada' }, { value: 'ownar' });
  try {
    const started = await spawnInstallation(dataDir);
    const piles = await fetch(`${started.pagesUrl}/api/piles`);
    await started.stop();
    expect(piles.status).toBe(401);
    expect(started.output()).toMatch(/No owner can be read: .*npm run restore .*BRANHEARTH_API_TOKEN/);
    expect(started.output()).not.toMatch(/Nobody is set up as owner/);

    const withToken = await spawnInstallation(dataDir, { environment: { API_TOKEN: 'the token of the environment' } });
    await withToken.stop();
    expect(withToken.output()).toMatch(
      /No owner can be read: .*POST http[^ ]*\/api\/invitations with {\\?"role\\?":\\?"owner\\?"}/,
    );
  } finally {
    await remove();
  }
});
