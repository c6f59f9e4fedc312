/** The built program makes the backup of a night that it was away for, in a process of its own, and it can be put back. */
import { mkdir, readdir, stat, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { restoreBackup } from '../../server/backup/restore-backup.ts';
import type { BackupsAnswer } from '../../shared/contracts/backups.ts';
import { makeDataDir } from '../helpers/open-test-server.ts';
import { spawnInstallation } from '../helpers/spawn-server.ts';
import { until } from '../helpers/until.ts';

test('a start after a night without a backup makes one, shows it, and it is whole', async () => {
  const { dataDir, remove } = await makeDataDir();
  const backups = join(dataDir, 'backups');
  await mkdir(backups);
  await writeFile(join(backups, 'nightly-20260101-030000.tar.gz'), 'of last winter');
  const server = await spawnInstallation(dataDir, { environment: { BACKUPS: '1' } });
  try {
    const shown = await until('the backup of last night', async () => {
      const answer = (await (await fetch(`${server.pagesUrl}/api/backups`)).json()) as BackupsAnswer;
      return answer.isOld ? undefined : answer;
    });
    const [name = '', ...others] = await until('the old one to be gone', async () => {
      const names = await readdir(backups);
      return names.length === 1 ? names : undefined;
    });
    expect(others).toEqual([]);
    const file = join(backups, name);
    expect(shown).toMatchObject({ state: 'on', folder: backups, keep: 1, problem: null });
    expect(shown.backups.find((one) => one.name === name)?.bytes).toBe((await stat(file)).size);
    const { manifest } = await restoreBackup(file, join(dataDir, 'put-back'), false, Date.now());
    expect(manifest.version).toMatch(/^\d+\.\d+\.\d+$/);
  } finally {
    await server.stop();
    await remove();
  }
});
