/** Both configurations of Mosquitto that we give people, where their first lines say to put them, in the real Mosquitto. */
import { type ChildProcess, execFileSync, spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { mkdir, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { connect, connectAsync } from 'mqtt';
import { afterEach, describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { freePort } from '../../helpers/free-port.ts';
import { hasMosquitto } from '../../helpers/mosquitto.ts';
import { until } from '../../helpers/until.ts';

const program = '/usr/sbin/mosquitto';
const asRoot = process.getuid?.() === 0 ? 'user root\n' : '';

/** As the package of Debian 12 brings it (mosquitto 2.0.11-1.2), word for word but for its comments. */
const ofDebian = `pid_file /run/mosquitto/mosquitto.pid

persistence true
persistence_location /var/lib/mosquitto/

log_dest file /var/log/mosquitto/mosquitto.log

include_dir /etc/mosquitto/conf.d
`;

const closing: (() => unknown)[] = [];
afterEach(async () => {
  for (const close of closing.splice(0).reverse()) await close();
});

async function scratch(): Promise<string> {
  const folder = await mkdtemp(join(tmpdir(), 'branhearth-mosquitto-conf-'));
  closing.push(() => rm(folder, { recursive: true, force: true }));
  return folder;
}

function start(config: string) {
  const child: ChildProcess = spawn(program, ['-c', config], { stdio: ['ignore', 'ignore', 'pipe'] });
  let said = '';
  child.stderr?.on('data', (chunk: Buffer) => {
    said += chunk.toString();
  });
  const ended = new Promise<void>((resolve) => child.once('exit', () => resolve()));
  const stop = async () => {
    child.kill();
    await ended;
  };
  closing.push(stop);
  return { stop, problem: () => (child.exitCode === null ? undefined : said) };
}

async function connected(started: ReturnType<typeof start>, port: number, more: object = {}) {
  const client = await until('the broker', async () => {
    const problem = started.problem();
    if (problem !== undefined) throw new Error(`it ended: ${problem}`);
    return connectAsync(`mqtt://127.0.0.1:${port}`, { reconnectPeriod: 0, ...more }).catch(() => undefined);
  });
  closing.push(() => client.endAsync(true).catch(() => {}));
  return client;
}

describe.skipIf(!hasMosquitto || !existsSync(program))('mosquitto.conf', () => {
  test('is taken as a part of Debian’s own configuration', async () => {
    const folder = await scratch();
    const port = await freePort();
    await mkdir(join(folder, 'conf.d'));
    const given = await readFile('server/deploy/mosquitto.conf', 'utf8');
    await writeFile(join(folder, 'conf.d/branhearth.conf'), given.replace('listener 1883', `listener ${port}`));
    const moved = ofDebian
      .replace('/run/mosquitto/', `${folder}/`)
      .replace('/var/lib/mosquitto/', `${folder}/`)
      .replace('/var/log/mosquitto/', `${folder}/`)
      .replace('/etc/mosquitto/conf.d', `${folder}/conf.d`);
    await writeFile(join(folder, 'mosquitto.conf'), asRoot + moved);
    expect((await connected(start(join(folder, 'mosquitto.conf')), port)).connected).toBe(true);
  });

  test('sets the same bounds in a container', async () => {
    const bounds = (text: string) =>
      text.match(/^(max_|message_size|persistent_client|sys_|autosave)\S* .*$/gm)?.sort();
    const [here, there] = await Promise.all(
      ['mosquitto.conf', 'mosquitto-container.conf'].map((name) => readFile(`server/deploy/${name}`, 'utf8')),
    );
    expect(bounds(there ?? '')).toEqual(bounds(here ?? ''));
    expect(bounds(here ?? '')).toHaveLength(6);
  });

  test('in a container asks for the password, and keeps what waits in the folder that compose.yaml keeps', async () => {
    const folder = await scratch();
    const port = await freePort();
    const given = await readFile('server/deploy/mosquitto-container.conf', 'utf8');
    const [, kept = ''] = /^persistence_location (\S+)\/$/m.exec(given) ?? [];
    const compose = parse(await readFile('server/deploy/compose.yaml', 'utf8'), { merge: true }) as {
      services: { mosquitto: { volumes: string[] } };
    };
    expect(compose.services.mosquitto.volumes).toContain(`mosquitto:${kept}`);

    const passwords = join(folder, 'branhearth.passwd');
    execFileSync('mosquitto_passwd', ['-b', '-c', passwords, 'branhearth', 'a-secret-of-the-farm']);
    const moved = given
      .replace('listener 1883', `listener ${port} 127.0.0.1`)
      .replace('/mosquitto/config/branhearth.passwd', passwords)
      .replace(`${kept}/`, `${folder}/`);
    const config = join(folder, 'mosquitto.conf');
    await writeFile(config, asRoot + moved);
    const first = start(config);
    const who = { username: 'branhearth', password: 'a-secret-of-the-farm' };
    const session = { ...who, clientId: 'branhearth', clean: false };
    const listener = await connected(first, port, session);
    await listener.subscribeAsync('piles/#', { qos: 1 });
    await listener.endAsync();
    await expect(connectAsync(`mqtt://127.0.0.1:${port}`, { reconnectPeriod: 0 })).rejects.toThrow();
    const probe = await connected(first, port, who);
    await probe.publishAsync('piles/yard/p1/temperature', '41.5', { qos: 1 });
    await probe.endAsync();
    await first.stop();

    const heard: string[] = [];
    const again = start(config);
    // It comes with the connection, so the ear is there before that.
    const client = connect(`mqtt://127.0.0.1:${port}`, { ...session, reconnectPeriod: 50 });
    closing.push(() => client.endAsync(true));
    client.on('error', () => {});
    client.on('message', (_topic, payload) => heard.push(payload.toString()));
    await until('what waited', () => heard.includes('41.5') || undefined);
    expect(again.problem()).toBeUndefined();
  });
});
