/** What somebody sees who starts the built program for the first time, and what they are told when it cannot start. */
import { execFileSync, spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { chmod, mkdir, readdir, writeFile } from 'node:fs/promises';
import { type AddressInfo, createServer } from 'node:net';
import { join, resolve } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { freePort } from '../helpers/free-port.ts';
import { hasTerminals, onTerminal } from '../helpers/on-terminal.ts';
import { makeDataDir } from '../helpers/open-test-server.ts';
import { until } from '../helpers/until.ts';

const mainPath = resolve('.build/server/app/main.js');
const demoPath = resolve('.build/simulator/demo/main.js');
const closing: (() => unknown)[] = [];
let dataDir: string;

beforeEach(async () => {
  const made = await makeDataDir();
  ({ dataDir } = made);
  closing.push(made.remove);
});
afterEach(async () => {
  for (const close of closing.splice(0).reverse()) await close();
});

const settings = () => ({ BRANHEARTH_DATA_DIR: dataDir, BRANHEARTH_PORT: '0', BRANHEARTH_MQTT_PORT: '0' });

/** A start that is over by itself. */
function ended(more: Record<string, string> = {}, given: readonly string[] = [], node: readonly string[] = []) {
  const { status, stdout, stderr } = spawnSync(process.execPath, [...node, mainPath, ...given], {
    env: { PATH: process.env.PATH, ...settings(), ...more },
    encoding: 'utf8',
    timeout: 60_000,
    ...(more.AS_NOBODY && { uid: 65_534, gid: 65_534 }),
  });
  return { status, stdout, stderr };
}

async function taken(): Promise<string> {
  const server = createServer().listen(0, '127.0.0.1');
  await new Promise((listening) => server.once('listening', listening));
  closing.push(() => server.close());
  return String((server.address() as AddressInfo).port);
}

describe.skipIf(!hasTerminals)('a first start on a terminal', () => {
  const start = () => {
    const terminal = onTerminal(`exec ${process.execPath} ${mainPath}`, settings());
    closing.push(() => terminal.closeWindow());
    return terminal;
  };

  test('prints where the pages are, how to become owner, where probes publish, where data are and how to stop; no JSON', async () => {
    const terminal = start();
    await until('the last line', () => /Stop {2,}press Ctrl-C/.exec(terminal.screen()) ?? undefined);
    const [said, ...lines] = terminal.screen().trim().split('\n');
    expect(said).toMatch(/^Branhearth \d+\.\d+\.\d+ is running$/);
    expect(lines.map((line) => line.trim().split(/ {2,}/)[0])).toEqual([
      'Pages',
      'Become owner',
      'Probes',
      'Data',
      'Stop',
    ]);
    expect(terminal.screen()).toMatch(/Become owner {2}http:\/\/127\.0\.0\.1:\d+\/setup#\S+ \(once, within 24 hours\)/);
    expect(terminal.screen()).toMatch(/Probes {2,}publish to mqtt:\/\/127\.0\.0\.1:\d+ \(from this machine only;/);
    expect(terminal.screen()).toContain(dataDir);
    const [pages] = /http:\/\/127\.0\.0\.1:\d+/.exec(terminal.screen()) ?? [];
    for (let asked = 0; asked < 5; asked += 1) await fetch(`${pages}/api/piles`);
    expect(terminal.screen().trim().split('\n')).toHaveLength(6);
    terminal.interrupt();
    expect(await terminal.ended).toBe(0);
  });

  test('ends in order when its window is closed', async () => {
    const terminal = start();
    const [pages] = await until('its pages', () => /http:\/\/127\.0\.0\.1:\d+/.exec(terminal.screen()) ?? undefined);
    expect((await fetch(`${pages}/api/health`)).ok).toBe(true);
    terminal.closeWindow();
    await until('it to be gone', async () => {
      const answers = await fetch(`${pages}/api/health`).catch(() => undefined);
      return answers === undefined || undefined;
    });
  });
});

describe('a start', () => {
  test('answers --help and --version, and opens nothing for that', async () => {
    const { version } = JSON.parse(readFileSync('package.json', 'utf8')) as { version: string };
    expect(ended({}, ['--version'])).toEqual({ status: 0, stdout: `${version}\n`, stderr: '' });
    const help = ended({}, ['--help']);
    expect(help).toMatchObject({ status: 0, stderr: '' });
    expect(help.stdout).toMatch(/branhearth backup/);
    expect(await readdir(dataDir)).toEqual([]);
  });

  test('under an old Node is refused in one line', async () => {
    const older = join(dataDir, 'older.cjs');
    await writeFile(older, `Object.defineProperty(process, 'version', { value: 'v18.20.4' });`);
    const { status, stdout, stderr } = ended({}, [], ['--require', older]);
    expect({ status, stdout }).toEqual({ status: 1, stdout: '' });
    expect(stderr).toMatch(/^Branhearth needs Node\.js 20\.19 or later[^\n]*: this is v18\.20\.4, at [^\n]+\n$/);
  });

  test('on a taken port of the pages is refused in one line, before anything is opened', async () => {
    const port = await taken();
    const { status, stdout, stderr } = ended({ BRANHEARTH_PORT: port });
    expect({ status, stdout }).toEqual({ status: 1, stdout: '' });
    expect(stderr).toMatch(
      new RegExp(`^Port ${port} on 127\\.0\\.0\\.1 is taken, [^\\n]*set BRANHEARTH_PORT[^\\n]*\\n$`),
    );
    expect(await readdir(dataDir)).toEqual([]);
  });

  test('at an address that is none of this machine is refused in one line', () => {
    const { status, stderr } = ended({
      BRANHEARTH_HOST: '192.0.2.1',
      BRANHEARTH_PORT: '4180',
      BRANHEARTH_PLAIN_HTTP: 'behind-a-proxy',
    });
    expect(status).toBe(1);
    expect(stderr).toMatch(/^BRANHEARTH_HOST must be an address of this machine, [^\n]*"192\.0\.2\.1"\n$/);
  });

  test('on a taken port of the broker is refused in one line', async () => {
    const { status, stderr } = ended({ BRANHEARTH_MQTT_PORT: await taken() });
    expect(status).toBe(1);
    expect(stderr).toMatch(/^Port \d+ on 127\.0\.0\.1 is taken, [^\n]*set BRANHEARTH_MQTT_PORT[^\n]*\n$/);
  });

  /** Root may do anything, so these are asked of somebody else. */
  const asNobody = process.getuid?.() === 0 ? { AS_NOBODY: 'yes' } : {};
  const canRunAsNobody = () => {
    if (process.getuid?.() !== 0) return true;
    const looked = spawnSync(process.execPath, ['--check', mainPath], { uid: 65_534, gid: 65_534 });
    return looked.status === 0;
  };

  test.skipIf(!canRunAsNobody())('in a folder it may not write to is refused in one line that names it', async () => {
    const folder = join(dataDir, 'of-somebody-else');
    await mkdir(folder);
    await chmod(folder, 0o500);
    await chmod(dataDir, 0o755);
    const { status, stderr } = ended({ ...asNobody, BRANHEARTH_DATA_DIR: folder });
    expect(status).toBe(1);
    expect(stderr).toMatch(
      /^BRANHEARTH_DATA_DIR must be a folder this program may read and write; [^\n]*EACCES[^\n]*\n$/,
    );
    expect(stderr).toContain(folder);
  });

  test.skipIf(!canRunAsNobody())('on a file of another user’s in its folder is refused in one line', async () => {
    if (process.getuid?.() !== 0) return;
    await chmod(dataDir, 0o777);
    await writeFile(join(dataDir, 'journal.db'), '', { mode: 0o600 });
    const { status, stderr } = ended({ ...asNobody });
    expect(status).toBe(1);
    expect(stderr).toMatch(/^BRANHEARTH_DATA_DIR must be [^\n]*journal\.db in it is not for [^\n]*\n$/);
  });

  const lowestOpen = '/proc/sys/net/ipv4/ip_unprivileged_port_start';
  const lowPortsAreKept = existsSync(lowestOpen) && Number(readFileSync(lowestOpen, 'utf8')) > 80;
  test.skipIf(!lowPortsAreKept || !canRunAsNobody())(
    'on port 80 without the right to it is refused in one line',
    () => {
      const { status, stderr } = ended({ ...asNobody, BRANHEARTH_PORT: '80' });
      expect(status).toBe(1);
      expect(stderr).toMatch(/^Port 80 for the pages may not be opened by this user, [^\n]*BRANHEARTH_PORT[^\n]*\n$/);
    },
  );
});

describe('the demo', () => {
  test('notices a taken port before it makes up two years', async () => {
    for (const name of ['BRANHEARTH_PORT', 'BRANHEARTH_MQTT_PORT']) {
      const { status, stdout, stderr } = spawnSync(process.execPath, [demoPath], {
        env: { PATH: process.env.PATH, TMPDIR: dataDir, ...settings(), [name]: await taken() },
        encoding: 'utf8',
        timeout: 60_000,
      });
      expect({ status, stdout }).toEqual({ status: 1, stdout: '' });
      expect(stderr).toMatch(new RegExp(`^Port \\d+ on 127\\.0\\.0\\.1 is taken, [^\\n]*set ${name}`));
      expect(await readdir(dataDir)).toEqual([]);
    }
  });

  /** Whether anything on this machine still has the folder in its environment. */
  const runsStill = (folder: string) =>
    execFileSync('sh', ['-c', 'cat /proc/[0-9]*/environ 2>/dev/null || true'], { encoding: 'latin1' }).includes(
      `BRANHEARTH_DATA_DIR=${folder}`,
    );

  test.skipIf(!hasTerminals)(
    'leaves no process, port or folder when its window is closed, while it makes up the past and while it runs',
    async () => {
      for (const moment of [/of 24/, /The farm Saltmere is at work/]) {
        const port = await freePort();
        const terminal = onTerminal(`exec ${process.execPath} ${demoPath}`, {
          TMPDIR: dataDir,
          BRANHEARTH_PORT: String(port),
          BRANHEARTH_MQTT_PORT: '0',
        });
        closing.push(() => terminal.closeWindow());
        await until('the moment', () => moment.exec(terminal.screen()) ?? undefined, 100_000);
        const [scratch = ''] = await readdir(dataDir);
        expect(scratch).toMatch(/^branhearth-demo-/);
        terminal.closeWindow();
        await until('the folder to be gone', async () => (await readdir(dataDir)).length === 0 || undefined);
        await until('its processes to be gone', () => !runsStill(join(dataDir, scratch)) || undefined);
        await expect(fetch(`http://127.0.0.1:${port}/api/health`)).rejects.toThrow();
      }
    },
    180_000,
  );
});
