/** The server behind nginx with the configuration that we give to people, and with TLS of its own. */
import { type ChildProcess, execFileSync, spawn } from 'node:child_process';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { mkdtemp, rm } from 'node:fs/promises';
import { request } from 'node:https';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { freePort } from '../helpers/free-port.ts';
import { type SpawnedInstallation, spawnInstallation } from '../helpers/spawn-server.ts';
import { until } from '../helpers/until.ts';

const nginxPath = '/usr/sbin/nginx';
const password = 'kettle willow copper lantern';
let folder: string;
const files = (name: string) => ({ cert: join(folder, `${name}.crt`), key: join(folder, `${name}.key`) });

function makeCertificate(name: string): void {
  const { cert, key } = files(name);
  const subject = ['-subj', `/CN=${name}`, '-addext', 'subjectAltName=DNS:farm.example,IP:127.0.0.1'];
  execFileSync(
    'openssl',
    ['req', '-x509', '-newkey', 'rsa:2048', '-nodes', '-days', '2', '-keyout', key, '-out', cert, ...subject],
    { stdio: 'ignore' },
  );
}

interface Got {
  readonly status: number;
  readonly headers: Record<string, string | string[] | undefined>;
  readonly text: string;
  readonly issuer: string;
}

interface Ask {
  readonly method?: string;
  readonly headers?: Record<string, string>;
  readonly body?: object;
}

/** @param certName The certificate to trust. */
function get(
  port: number,
  path: string,
  certName: string,
  { method = 'GET', headers = {}, body }: Ask = {},
): Promise<Got> {
  return new Promise((resolve, reject) => {
    const asked = request(
      {
        host: '127.0.0.1',
        port,
        path,
        method,
        ca: readFileSync(files(certName).cert),
        agent: false,
        headers: { host: `farm.example:${port}`, ...(body && { 'content-type': 'application/json' }), ...headers },
        servername: 'farm.example',
      },
      (answer) => {
        const issuer = (answer.socket as import('node:tls').TLSSocket).getPeerCertificate().issuer.CN;
        let text = '';
        answer.on('data', (chunk) => {
          text += chunk;
        });
        answer.on('end', () =>
          resolve({ status: answer.statusCode ?? 0, headers: answer.headers, text, issuer: String(issuer) }),
        );
      },
    );
    asked.on('error', reject);
    asked.end(body && JSON.stringify(body));
  });
}

/** @param server What stands in its `http` block. */
function startNginx(folder: string, name: string, server: string): ChildProcess {
  const temp = ['client_body', 'proxy', 'fastcgi', 'uwsgi', 'scgi']
    .map((what) => `${what}_temp_path ${folder}/${name}-${what};`)
    .join(' ');
  const file = join(folder, `${name}.conf`);
  writeFileSync(
    file,
    `daemon off; pid ${folder}/${name}.pid; error_log stderr; events {} http { access_log off; ${temp}\n${server} }`,
  );
  return spawn(nginxPath, ['-p', folder, '-c', file], { stdio: 'ignore' });
}

const cookiesIn = ({ headers }: Got) => [headers['set-cookie'] ?? []].flat();
const setupSecret = (installation: SpawnedInstallation) =>
  until('the link of the start', () => /\/setup#([A-Za-z0-9_-]{43})/.exec(installation.output())?.[1]);

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'branhearth-tls-'));
  makeCertificate('first');
  makeCertificate('second');
});
afterAll(() => rm(folder, { recursive: true, force: true }));

describe.skipIf(!existsSync(nginxPath))('behind nginx', () => {
  let installation: SpawnedInstallation;
  let nginx: ChildProcess;
  let port: number;
  let cookie: string;

  beforeAll(async () => {
    installation = await spawnInstallation(join(folder, 'behind'), { environment: { TRUSTED_PROXIES: '127.0.0.1' } });
    port = await freePort();
    const { cert, key } = files('first');
    const server = readFileSync(new URL('../../server/deploy/nginx-tls.conf', import.meta.url), 'utf8')
      .replace('listen 443 ssl', `listen 127.0.0.1:${port} ssl`)
      .replaceAll('http://127.0.0.1:4180', installation.pagesUrl)
      .replace('/etc/ssl/branhearth/fullchain.pem', cert)
      .replace('/etc/ssl/branhearth/privkey.pem', key);
    nginx = startNginx(folder, 'tls', server);
    await until('nginx to answer', () =>
      get(port, '/api/health', 'first').then(
        ({ status }) => (status === 200 ? true : undefined),
        () => undefined,
      ),
    );
  });
  afterAll(async () => {
    nginx?.kill();
    await installation?.stop();
  });

  test('nobody from outside acts as owner, though the proxy speaks from this machine', async () => {
    expect((await get(port, '/api/piles', 'first')).status).toBe(401);
    expect((await get(port, '/api/piles', 'first', { headers: { host: '127.0.0.1' } })).status).toBe(401);
    expect((await fetch(`${installation.pagesUrl}/api/piles`)).status).toBe(401);
  });

  test('the setup link works, and its cookies are bound to this host and to TLS', async () => {
    const body = { secret: await setupSecret(installation), name: 'Olive', password };
    const used = await get(port, '/api/links/use', 'first', {
      method: 'POST',
      body,
      headers: { origin: `https://farm.example:${port}` },
    });
    expect([used.status, used.text]).toEqual([200, expect.stringContaining('Olive')]);
    const cookies = cookiesIn(used);
    expect(cookies).toHaveLength(2);
    for (const one of cookies)
      expect(one).toMatch(/^__Host-branhearth_\w+=.*; Path=\/; HttpOnly; Secure; SameSite=Lax$/);
    cookie = cookies.map((one) => one.split(';')[0]).join('; ');
    expect((await get(port, '/api/piles', 'first', { headers: { cookie } })).status).toBe(200);
    expect(used.headers['strict-transport-security']).toMatch(/^max-age=\d+/);
  });

  test('where somebody comes from is what nginx sees, whatever they claim', async () => {
    const headers = { cookie, 'x-forwarded-for': '203.0.113.9', forwarded: 'for=203.0.113.9' };
    const { sessions } = JSON.parse((await get(port, '/api/me/sessions', 'first', { headers })).text) as {
      sessions: { address: string }[];
    };
    expect(sessions.map(({ address }) => address)).toEqual(['127.0.0.1']);
    const body = { name: 'Olive', password: 'not the password at all' };
    await get(port, '/api/session', 'first', { method: 'POST', body, headers: { 'x-forwarded-for': '203.0.113.9' } });
    const { text } = await get(port, '/api/audit?words=refused', 'first', { headers: { cookie } });
    expect(text).toContain('"address":"127.0.0.1"');
    expect(text).not.toContain('203.0.113.9');
  });

  test('changes come through as they happen', async () => {
    const first = await new Promise<string>((resolve, reject) => {
      const asked = request(
        {
          host: '127.0.0.1',
          port,
          path: '/api/live',
          ca: readFileSync(files('first').cert),
          agent: false,
          servername: 'farm.example',
          headers: { host: `farm.example:${port}`, cookie },
        },
        (answer) => {
          answer.once('data', (chunk: Buffer) => {
            answer.destroy();
            resolve(chunk.toString());
          });
        },
      );
      asked.on('error', reject);
      asked.end();
    });
    expect(first).toContain('event: hello');
  });
});

describe.skipIf(!existsSync(nginxPath))('behind the proxy of compose.yaml', () => {
  let installation: SpawnedInstallation;
  let nginx: ChildProcess;
  let address: string;

  beforeAll(async () => {
    installation = await spawnInstallation(join(folder, 'composed'), { environment: { TRUSTED_PROXIES: '127.0.0.1' } });
    const port = await freePort();
    address = `http://127.0.0.1:${port}`;
    const server = readFileSync(new URL('../../server/deploy/nginx.conf', import.meta.url), 'utf8')
      .replace('listen 80', `listen 127.0.0.1:${port}`)
      .replaceAll(/server web-\d:4180/g, `server ${new URL(installation.pagesUrl).host}`);
    nginx = startNginx(folder, 'composed', server);
    await until('nginx to answer', () =>
      fetch(`${address}/api/health`).then(
        ({ status }) => (status === 200 ? true : undefined),
        () => undefined,
      ),
    );
  });
  afterAll(async () => {
    nginx?.kill();
    await installation?.stop();
  });

  test('guesses from one machine are slowed down, whatever addresses it claims', async () => {
    const send = (path: string, body: object, headers: Record<string, string> = {}) =>
      fetch(`${address}${path}`, {
        method: 'POST',
        headers: { 'content-type': 'application/json', ...headers },
        body: JSON.stringify(body),
      });
    const used = await send('/api/links/use', { secret: await setupSecret(installation), name: 'Olive', password });
    expect(used.status).toBe(200);
    const statuses: number[] = [];
    for (let guess = 1; guess <= 8; guess += 1) {
      const claimed = `203.0.113.${guess}`;
      const headers = {
        'x-forwarded-for': `${claimed}, 198.51.100.${guess}`,
        'x-real-ip': claimed,
        forwarded: `for=${claimed}`,
      };
      statuses.push(
        (await send('/api/session', { name: 'Olive', password: `guess ${guess} of many` }, headers)).status,
      );
    }
    expect(statuses).toEqual([401, 401, 401, 401, 401, 429, 429, 429]);
  });
});

describe('TLS of its own', () => {
  test('is spoken from files, with Secure cookies and HSTS, and read anew on SIGHUP; a bad file changes nothing', async () => {
    const live = files('live');
    const put = (name: string) => {
      writeFileSync(live.cert, readFileSync(files(name).cert));
      writeFileSync(live.key, readFileSync(files(name).key));
    };
    put('first');
    const installation = await spawnInstallation(join(folder, 'own'), {
      environment: { TLS_CERT: live.cert, TLS_KEY: live.key },
    });
    const port = Number(new URL(installation.pagesUrl).port);
    try {
      expect(installation.pagesUrl).toMatch(/^https:/);
      const body = { secret: await setupSecret(installation), name: 'Olive', password };
      const used = await get(port, '/api/links/use', 'first', { method: 'POST', body });
      expect([used.status, used.issuer]).toEqual([200, 'first']);
      expect(cookiesIn(used)[0]).toMatch(/^__Host-branhearth_session=.*; Secure;/);
      expect(used.headers['strict-transport-security']).toMatch(/^max-age=\d+/);
      put('second');
      installation.child.kill('SIGHUP');
      await until('the second certificate', () =>
        get(port, '/api/health', 'second').then(
          ({ issuer }) => (issuer === 'second' ? true : undefined),
          () => undefined,
        ),
      );
      writeFileSync(live.cert, 'no certificate');
      installation.child.kill('SIGHUP');
      await until(
        'the refusal of the third',
        () => installation.output().includes('the one before stays') || undefined,
      );
      expect((await get(port, '/api/health', 'second')).status).toBe(200);
    } finally {
      await installation.stop();
    }
  });

  test('does not start on a file that is no certificate: one line names it', async () => {
    const bad = join(folder, 'bad.pem');
    writeFileSync(bad, 'no certificate');
    const start = spawnInstallation(join(folder, 'never'), {
      environment: { TLS_CERT: bad, TLS_KEY: files('first').key },
    });
    await expect(start).rejects.toThrowError(
      /^BRANHEARTH_TLS_CERT and _TLS_KEY must be a certificate and the key[^\n]*$/,
    );
  });
});
