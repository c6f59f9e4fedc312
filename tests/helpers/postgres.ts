/**
 * A real PostgreSQL on a scratch cluster, started and ended by the tests that ask for it. It never uses or leaves a
 * service of the machine, and never runs the server as root: it refuses that.
 */
import { type ChildProcess, execFileSync, spawn } from 'node:child_process';
import { chownSync, existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Client } from 'pg';
import { openPostgresJournal } from '../../shared/store/journal/postgres-journal.ts';
import { freePort } from './free-port.ts';
import type { Certificate } from './https-server.ts';

const programs = findPrograms();
export const hasPostgres = programs !== undefined;
if (!hasPostgres) {
  console.warn(
    '\n*** NOT TESTED against a real PostgreSQL: it is not installed (Debian: apt-get install postgresql) ***\n',
  );
}

const runningNow = new Set<ChildProcess>();
process.once('exit', () => {
  for (const child of runningNow) child.kill('SIGKILL');
});

export interface Postgres {
  readonly port: number;
  /** Makes an empty database and gives its address. */
  database(): Promise<string>;
  /** The same with an empty journal in it: made once and copied, since its migrations take ten times as long as a copy. */
  journalDatabase(): Promise<string>;
  /** As an operator restarts it: everything committed stays, every connection breaks. */
  stop(): Promise<void>;
  start(): Promise<void>;
  /** Stops the clockwork of all its processes: connections are taken, nothing is answered. */
  freeze(): void;
  wake(): void;
  /** Ends it and removes its folder. */
  remove(): Promise<void>;
}

/** A program of the same installation, such as pg_dump. */
export function postgresProgram(name: string): string {
  if (programs === undefined) throw new Error('Cannot run a program of PostgreSQL as it must be installed');
  return join(programs, name);
}

/**
 * @param settings Lines of postgresql.conf.
 * @param tls With it, nobody comes in without TLS.
 */
export async function startPostgres(
  settings: Readonly<Record<string, string>> = {},
  tls?: Certificate,
): Promise<Postgres> {
  if (programs === undefined) throw new Error('Cannot start PostgreSQL as it must be installed');
  const folder = await mkdtemp(join(tmpdir(), 'branhearth-postgres-'));
  const asRoot = process.getuid?.() === 0;
  const owner = asRoot ? postgresUser() : undefined;
  if (owner) chownSync(folder, owner.uid, owner.gid);
  const data = join(folder, 'data');
  const port = await freePort();
  const run = owner ?? {};
  execFileSync(join(programs, 'initdb'), ['-D', data, '-U', 'keeper', '-A', 'trust', '-E', 'UTF8', '--no-sync'], {
    ...run,
    cwd: folder,
    stdio: ['ignore', 'ignore', 'inherit'],
    env: { PATH: process.env.PATH ?? '', LC_ALL: 'C.UTF-8' },
  });
  const withTls = tls && { ssl: 'on', ...layTls(data, tls, owner) };
  const options = {
    listen_addresses: '127.0.0.1',
    unix_socket_directories: folder,
    max_connections: '200',
    ...withTls,
    ...settings,
  };
  const given = Object.entries(options).flatMap(([name, value]) => ['-c', `${name}=${value}`]);
  const server = join(programs, 'postgres');
  let running: ChildProcess | undefined;
  let databases = 0;
  let journalTemplate: Promise<string> | undefined;

  async function makeDatabase(template = 'template1'): Promise<string> {
    databases += 1;
    const name = `farm_${process.pid}_${databases}`;
    await ask(port, 'postgres', `CREATE DATABASE ${name} TEMPLATE ${template}`, tls);
    return name;
  }

  const urlOf = (name: string) => `postgres://keeper@127.0.0.1:${port}/${name}`;

  async function makeJournalTemplate(): Promise<string> {
    const name = await makeDatabase();
    await (await openPostgresJournal(urlOf(name))).close();
    return name;
  }

  async function start(): Promise<void> {
    const child = spawn(server, ['-D', data, '-p', String(port), ...given], { ...run, cwd: folder, stdio: 'ignore' });
    running = child;
    runningNow.add(child);
    for (let attempt = 0; attempt < 400; attempt += 1) {
      if (child.exitCode !== null) throw new Error(`Cannot start PostgreSQL: it ended with ${child.exitCode}`);
      if (await answers(port, tls)) return;
      await new Promise((resolve) => setTimeout(resolve, 25));
    }
    throw new Error('Cannot start PostgreSQL: it does not answer after 10 s');
  }

  async function stop(): Promise<void> {
    const child = running;
    running = undefined;
    if (child === undefined || child.exitCode !== null) return;
    const ended = new Promise((resolve) => child.once('exit', resolve));
    child.kill('SIGINT'); // "fast": open connections are ended
    await ended;
    runningNow.delete(child);
  }

  const signalAll = (signal: NodeJS.Signals) => {
    const { pid } = running ?? {};
    if (pid !== undefined) for (const one of [pid, ...childrenOf(pid)]) process.kill(one, signal);
  };

  await start();
  return {
    port,
    start,
    stop,
    freeze: () => signalAll('SIGSTOP'),
    wake: () => signalAll('SIGCONT'),
    database: async () => urlOf(await makeDatabase()),
    async journalDatabase() {
      journalTemplate ??= makeJournalTemplate();
      return urlOf(await makeDatabase(await journalTemplate));
    },
    async remove() {
      await stop();
      await rm(folder, { recursive: true, force: true });
    },
  };
}

/** As the kernel tells (Linux): each connection is served by a process of its own. */
function childrenOf(pid: number): number[] {
  const all = readdirSync('/proc').map(Number).filter(Number.isInteger);
  return all.filter((one) => parentOf(one) === pid);
}

function parentOf(pid: number): number | undefined {
  try {
    return Number(/^PPid:\s+(\d+)$/m.exec(readFileSync(`/proc/${pid}/status`, 'utf8'))?.[1]);
  } catch {
    return undefined; // it ended meanwhile
  }
}

/** The server reads its key only where nobody else can; every line of another machine or user has to be under TLS. */
function layTls(data: string, { key, cert }: Certificate, owner: { uid: number; gid: number } | undefined) {
  const files = { ssl_key_file: join(data, 'server.key'), ssl_cert_file: join(data, 'server.crt') };
  writeFileSync(files.ssl_key_file, key, { mode: 0o600 });
  writeFileSync(files.ssl_cert_file, cert);
  if (owner) for (const file of Object.values(files)) chownSync(file, owner.uid, owner.gid);
  writeFileSync(join(data, 'pg_hba.conf'), 'hostssl all all 127.0.0.1/32 trust\n');
  return files;
}

async function ask(port: number, database: string, statement: string, tls?: Certificate): Promise<void> {
  const client = new Client({
    host: '127.0.0.1',
    port,
    user: 'keeper',
    database,
    connectionTimeoutMillis: 2_000,
    ...(tls && { ssl: { ca: tls.cert } }),
  });
  client.on('error', () => {});
  await client.connect();
  try {
    await client.query(statement);
  } finally {
    await client.end();
  }
}

function answers(port: number, tls: Certificate | undefined): Promise<boolean> {
  return ask(port, 'postgres', 'SELECT 1', tls).then(
    () => true,
    () => false,
  );
}

function findPrograms(): string | undefined {
  const root = '/usr/lib/postgresql';
  const majors = existsSync(root) ? readdirSync(root).filter((name) => /^\d+$/.test(name)) : [];
  const newest = majors.sort((a, b) => Number(b) - Number(a))[0];
  return [newest && join(root, newest, 'bin'), '/usr/local/bin', '/opt/homebrew/bin'].find(
    (folder): folder is string =>
      !!folder && existsSync(join(folder, 'initdb')) && existsSync(join(folder, 'postgres')),
  );
}

/** The package makes this user; the server refuses to run as root. */
function postgresUser(): { uid: number; gid: number } {
  const id = (flag: string) => Number(execFileSync('id', [flag, 'postgres'], { encoding: 'utf8' }));
  return { uid: id('-u'), gid: id('-g') };
}
