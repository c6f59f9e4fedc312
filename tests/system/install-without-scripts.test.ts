import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { makeDataDir } from '../helpers/open-test-server.ts';
import { spawnInstallation } from '../helpers/spawn-server.ts';

test('a start after an install that ran no scripts ends with one line that says what to run', async () => {
  const { dataDir, remove } = await makeDataDir();
  // As if the library had never been built: its file is not there.
  const hidden = join(dataDir, 'hidden.cjs');
  await writeFile(
    hidden,
    `const extensions = require('node:module')._extensions;
     const load = extensions['.node'];
     extensions['.node'] = (module, file) => {
       if (file.includes('better_sqlite3')) throw Object.assign(new Error('Cannot find module ' + file), { code: 'MODULE_NOT_FOUND' });
       load(module, file);
     };`,
  );
  const start = spawnInstallation(dataDir, { nodeArguments: ['--require', hidden] });
  await expect(start).rejects.toThrowError(
    /^The database library better-sqlite3 has no binary for Node [^\n]*: install again with `npm ci` [^\n]*, then start again$/,
  );
  await remove();
});
