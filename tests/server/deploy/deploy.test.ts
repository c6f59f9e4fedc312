/** The files under server/deploy/ are not run here; their form and every name in them are. */
import { execFileSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { BlockList } from 'node:net';
import { expect, test } from 'vitest';
import { parse } from 'yaml';
import { z } from 'zod';
import { onlyOf, serversOf } from '../../../server/cluster/servers.ts';
import { readConfig } from '../../../shared/config.ts';
import { configVariables } from '../../../shared/config-variables.ts';

const read = (name: string) => readFile(`server/deploy/${name}`, 'utf8');

const composeSchema = z.object({
  services: z.record(
    z.string(),
    z.object({
      image: z.string().optional(),
      build: z.object({ context: z.string(), dockerfile: z.string() }).optional(),
      command: z.array(z.string()).optional(),
      environment: z.record(z.string(), z.string()).optional(),
      volumes: z.array(z.string()).optional(),
      depends_on: z.unknown().optional(),
      networks: z.union([z.array(z.string()), z.object({ front: z.object({ ipv4_address: z.string() }) })]).optional(),
    }),
  ),
  volumes: z.record(z.string(), z.unknown()),
  networks: z.object({
    front: z.object({ ipam: z.object({ config: z.tuple([z.object({ subnet: z.string(), gateway: z.string() })]) }) }),
  }),
});
const compose = async () => composeSchema.parse(parse(await read('compose.yaml'), { merge: true }));

test('compose.yaml has two workers, two web processes, and what they share', async () => {
  const { services } = await compose();
  expect(Object.keys(services).sort()).toEqual(
    ['influxdb', 'mosquitto', 'postgres', 'proxy', 'web-1', 'web-2', 'worker-1', 'worker-2'].sort(),
  );
});

test('compose.yaml gives each of our processes settings that its start would take', async () => {
  const { services } = await compose();
  const ours = Object.entries(services).filter(([, { build }]) => build);
  expect(ours).toHaveLength(4);
  for (const [name, { command = [], environment = {}, build }] of ours) {
    expect(existsSync(`server/deploy/${build?.context}/${build?.dockerfile}`)).toBe(true);
    const told = Object.fromEntries(
      Object.entries(environment).map(([variable, value]) => [
        variable,
        value.replace(/\$\{PUBLIC_URL:\?\}/, 'https://farm.example').replace(/\$\{\w+:\?\}/, 'a-secret-of-the-farm'),
      ]),
    );
    const { config, unknown } = readConfig(told);
    expect(unknown).toEqual([]);
    const only = onlyOf(command);
    expect(only).toBe(name.startsWith('web') ? 'web' : 'ingest');
    if (only) serversOf(config, only);
  }
});

test('every BRANHEARTH_ name in the files is one that the program knows', async () => {
  for (const file of ['compose.yaml', 'compose.one.yaml', 'Dockerfile', 'branhearth.service', 'nginx.conf']) {
    for (const [, name] of (await read(file)).matchAll(/\bBRANHEARTH_([A-Z0-9_]+)\b/g)) {
      if (name !== 'NAME') expect(Object.keys(configVariables)).toContain(name);
    }
  }
});

test('the proxy speaks to web processes of compose.yaml, at the port they listen on', async () => {
  const { services } = await compose();
  const servers = [...(await read('nginx.conf')).matchAll(/server ([\w-]+):(\d+)/g)];
  expect(servers.map(([, name]) => name).sort()).toEqual(
    Object.keys(services).filter((name) => name.startsWith('web')),
  );
  for (const [, , port] of servers) expect(port).toBe(configVariables.PORT.fallback);
});

test('the proxy alone is believed about who asks: by its fixed address, in a network with the web processes only', async () => {
  const { services, networks } = await compose();
  const { networks: ofProxy } = services.proxy ?? {};
  const address = ofProxy && !Array.isArray(ofProxy) ? ofProxy.front.ipv4_address : '';
  const [{ subnet, gateway }] = networks.front.ipam.config;
  const [network = '', bits] = subnet.split('/');
  const inFront = new BlockList();
  inFront.addSubnet(network, Number(bits));
  expect([inFront.check(address), inFront.check(gateway), address !== gateway]).toEqual([true, true, true]);
  for (const [name, { environment = {}, networks: joined = [] }] of Object.entries(services)) {
    if (name.startsWith('web')) expect(joined).toEqual(['default', 'front']);
    else if (name !== 'proxy') expect(joined).toEqual([]);
    expect(environment.BRANHEARTH_TRUSTED_PROXIES).toBe(name.startsWith('web') ? address : undefined);
  }
});

test('images are named by a whole version', async () => {
  const { services } = await compose();
  const fromLines = [...(await read('Dockerfile')).matchAll(/^FROM (\S+)/gm)].map(([, image]) => image ?? '');
  const images = Object.values(services).flatMap(({ image }) => image ?? []);
  expect(images.length + fromLines.length).toBe(6);
  for (const image of [...images, ...fromLines]) expect(image).toMatch(/^[a-z-]+:\d+\.\d+(\.\d+)?(-[a-z-]+)?$/);
});

test('the image is made of sources only: secrets, data and backups stay outside', async () => {
  const lines = (await readFile('.dockerignore', 'utf8')).split('\n').filter((line) => line !== '' && line[0] !== '#');
  expect(lines[0]).toBe('*');
  const taken = lines.filter((line) => line.startsWith('!')).map((line) => line.slice(1));
  expect(taken.filter((name) => !existsSync(name))).toEqual([]);
  expect(taken).not.toContain('data');
  for (const kept of ['**/.env*', '**/*.pem', '**/*.key', '**/*.db', '**/*.tar.gz']) expect(lines).toContain(kept);
  // After what is taken: the last line that fits decides.
  expect(lines.indexOf('**/.env*')).toBeGreaterThan(lines.lastIndexOf(`!${taken.at(-1)}`));
});

test('volumes that services name are made', async () => {
  const { services, volumes } = await compose();
  for (const { volumes: used = [] } of Object.values(services)) {
    for (const one of used) if (/^[a-z]/.test(one)) expect(Object.keys(volumes)).toContain(one.split(':')[0]);
  }
});

const analyze = '/usr/bin/systemd-analyze';
test.skipIf(!existsSync(analyze) || !existsSync('/usr/bin/node'))(
  'systemd finds nothing wrong with branhearth.service',
  () => {
    execFileSync(analyze, ['verify', 'server/deploy/branhearth.service'], { stdio: 'pipe' });
  },
);
