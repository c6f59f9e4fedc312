/** The image and compose.one.yaml, as far as they can be held without an engine that builds and runs them. */
import { existsSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { parse } from 'yaml';
import { z } from 'zod';
import { isLoopback, readConfig } from '../../../shared/config.ts';

const read = (name: string) => readFileSync(`server/deploy/${name}`, 'utf8');

/** Instructions in order, lines that go on put together. */
const instructions = read('Dockerfile')
  .replace(/^#.*\n/gm, '')
  .replace(/\\\n\s*/g, '')
  .split('\n')
  .filter((line) => line !== '')
  .map((line) => {
    const [, name = '', given = ''] = /^([A-Z]+)\s+(.*)$/.exec(line) ?? [];
    return { name, given };
  });
const lastStage = instructions.slice(instructions.map(({ name }) => name).lastIndexOf('FROM'));
const givenTo = (name: string) => lastStage.filter((one) => one.name === name).map(({ given }) => given);
const listIn = (text: string) => z.array(z.string()).parse(JSON.parse(text));
const imageEnvironment = Object.fromEntries(
  givenTo('ENV').flatMap((given) => given.split(/\s+/).map((pair) => pair.split('=', 2) as [string, string])),
);

const composeSchema = z.object({
  services: z.strictObject({
    branhearth: z.object({
      build: z.object({ context: z.string(), dockerfile: z.string() }),
      image: z.string(),
      ports: z.array(z.string()),
      environment: z.record(z.string(), z.string()),
      volumes: z.array(z.string()),
      read_only: z.literal(true),
      tmpfs: z.array(z.string()),
      cap_drop: z.tuple([z.literal('ALL')]),
      security_opt: z.array(z.string()),
      mem_limit: z.string(),
      stop_grace_period: z.string(),
    }),
  }),
  volumes: z.record(z.string(), z.unknown()),
});
const one = composeSchema.parse(parse(read('compose.one.yaml')));
const service = one.services.branhearth;

/** A name that is not set takes what stands behind `:-`. */
const filledIn = (text: string) => text.replace(/\$\{\w+:-([^}]*)\}/g, '$1');
const environment = {
  ...imageEnvironment,
  ...Object.fromEntries(Object.entries(service.environment).map(([name, value]) => [name, filledIn(value)])),
};

test('the image is made of the line of Node that the tests run the program under', () => {
  const { dependencies } = JSON.parse(readFileSync('tests/node-lines/package.json', 'utf8')) as {
    dependencies: Record<string, string>;
  };
  const tested = /@(\d+\.\d+\.\d+)$/.exec(dependencies['node-24'] ?? '')?.[1];
  const bases = instructions.filter(({ name }) => name === 'FROM').map(({ given }) => given.replace(/ AS .*/, ''));
  expect(bases).toEqual([`node:${tested}-bookworm-slim`, `node:${tested}-bookworm-slim`]);
});

test('the image starts a program that is built, as a user who is not root, with the flag for memory that npm start has', () => {
  const [entry = '[]'] = givenTo('ENTRYPOINT');
  const [node, flag, program = ''] = listIn(entry);
  const { scripts, bin } = JSON.parse(readFileSync('package.json', 'utf8')) as {
    scripts: { start: string };
    bin: { branhearth: string };
  };
  expect([node, program]).toEqual(['node', bin.branhearth]);
  expect(scripts.start).toContain(` ${flag} `);
  expect(givenTo('USER')).toEqual(['node']);
  expect(givenTo('STOPSIGNAL')).toEqual(['SIGTERM']);
});

test('the image has a health check that is a program of ours', () => {
  const [check = ''] = givenTo('HEALTHCHECK');
  const [node, program = ''] = listIn(check.slice(check.indexOf('CMD ') + 4));
  expect(node).toBe('node');
  expect(existsSync(program.replace(/^\.build\//, '').replace(/\.js$/, '.ts'))).toBe(true);
});

test('data are in a volume that its user may write to, and the compose file keeps it', () => {
  const folder = imageEnvironment.BRANHEARTH_DATA_DIR;
  expect(givenTo('VOLUME')).toEqual([folder]);
  // Made and given away before it is a volume, for what is changed later is thrown away.
  const names = lastStage.map(({ name, given }) => `${name} ${given}`);
  const made = names.findIndex((line) => line.startsWith('RUN ') && line.includes(`chown node:node ${folder}`));
  expect(made).toBeGreaterThan(0);
  expect(made).toBeLessThan(names.indexOf(`VOLUME ${folder}`));
  const [volume, target] = service.volumes[0]?.split(':') ?? [];
  expect([service.volumes.length, target, Object.keys(one.volumes)]).toEqual([1, folder, [volume]]);
});

test('a start takes the settings, and its ports can be reached from outside of the container', () => {
  const { config, unknown } = readConfig(environment);
  expect(unknown).toEqual([]);
  expect([isLoopback(config.HOST), isLoopback(config.MQTT_HOST), config.MQTT_TRUSTED_NETWORK]).toEqual([
    false,
    false,
    'no',
  ]);
  const inside = service.ports.map((port) => Number(port.split(':').at(-1)));
  expect(inside).toEqual([config.PORT, config.MQTT_PORT]);
  expect(givenTo('EXPOSE')).toEqual([inside.join(' ')]);
  // Plain HTTP for this machine alone.
  expect(service.ports[0]).toMatch(/^127\.0\.0\.1:/);
  // What the owner's link begins with would else be the name of the container.
  expect(config.PUBLIC_URL).toBe(`http://localhost:${config.PORT}`);
});

test('the image holds what is built and no source or test', () => {
  const copied = givenTo('COPY').map((given) => given.split(' ').slice(1, -1).join(' '));
  expect(copied).toEqual(['/branhearth/package.json', '/branhearth/node_modules', '/branhearth/.build']);
  const taken = readFileSync('.dockerignore', 'utf8').split('\n');
  expect(taken.filter((line) => /^!.*tests/.test(line))).toEqual([]);
  const { scripts } = JSON.parse(readFileSync('package.json', 'utf8')) as { scripts: { prepare: string } };
  expect(scripts.prepare).not.toContain('--with-tests');
});

test('the compose file builds the image of this version', () => {
  const { version } = JSON.parse(readFileSync('package.json', 'utf8')) as { version: string };
  expect(service.image).toBe(`branhearth:${version}`);
  expect(existsSync(`server/deploy/${service.build.context}/${service.build.dockerfile}`)).toBe(true);
});
