import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Client } from 'pg';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { openPostgresJournal } from '../../../shared/store/journal/postgres-journal.ts';
import { makeCertificate } from '../../helpers/https-server.ts';
import { hasPostgres, type Postgres, startPostgres } from '../../helpers/postgres.ts';
import { until } from '../../helpers/until.ts';
import { terrace, yard } from './journal-sample.ts';

describe.skipIf(!hasPostgres)('the journal in a PostgreSQL that wants TLS', () => {
  let postgres: Postgres;
  let folder: string;
  let url: string;
  const file = (name: string) => encodeURIComponent(join(folder, name));

  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), 'branhearth-tls-'));
    const own = makeCertificate('127.0.0.1');
    await writeFile(join(folder, 'own.pem'), own.cert);
    await writeFile(join(folder, 'other.pem'), makeCertificate('127.0.0.1').cert);
    postgres = await startPostgres({ fsync: 'off' }, own);
    url = await postgres.database();
  });
  afterAll(async () => {
    await postgres?.remove();
    await rm(folder, { recursive: true, force: true });
  });

  test('is opened, written and heard of with sslmode=verify-full and the certificate named, every line under TLS', async () => {
    const secured = `${url}?sslmode=verify-full&sslrootcert=${file('own.pem')}`;
    const [journal, recipient] = [await openPostgresJournal(secured), await openPostgresJournal(secured)];
    const news: string[] = [];
    const line = recipient.hear(({ topic, about }) => news.push(`${topic} ${about}`));
    await until('the line', () => (news.includes('missed ') ? true : undefined));
    await journal.sites.add(yard);
    await until('the news', () => (news.includes('changed site') ? true : undefined));
    expect(await recipient.sites.list()).toEqual([yard]);

    const client = new Client({ connectionString: secured });
    await client.connect();
    const { rows } = await client.query(
      `SELECT application_name AS name, bool_and(ssl) AS tls FROM pg_stat_ssl JOIN pg_stat_activity USING (pid)
       WHERE application_name LIKE 'branhearth%' GROUP BY 1 ORDER BY 1`,
    );
    expect(rows).toEqual([
      { name: 'branhearth', tls: true },
      { name: 'branhearth-news', tls: true },
    ]);
    await client.end();
    await line.close();
    await journal.close();
    await recipient.close();
  });

  for (const [what, parameters, why] of [
    [
      'a certificate that the one named does not stand for',
      () => `?sslmode=verify-full&sslrootcert=${file('other.pem')}`,
      /certificate/,
    ],
    ['a certificate that nobody known to this machine stands for', () => '?sslmode=verify-full', /certificate/],
    ['a line without TLS', () => '', /only under TLS \(sslmode in the address\)/],
  ] as const) {
    test(`is not opened over ${what}; the refusal is one line, without the password`, async () => {
      const asked = openPostgresJournal(`${url.replace('keeper@', 'keeper:hush-hush@')}${parameters()}`);
      const error = await asked.then(
        () => undefined,
        (refused: Error) => refused,
      );
      expect(error?.name).toBe('StoreError');
      expect(error?.message).toMatch(why);
      expect(error?.message).not.toMatch(/hush-hush|\n/);
    });
  }

  test('is not opened under another name than the certificate has', async () => {
    const elsewhere = `${url.replace('127.0.0.1', 'localhost')}?sslmode=verify-full&sslrootcert=${file('own.pem')}`;
    await expect(openPostgresJournal(elsewhere).then((journal) => journal.sites.add(terrace))).rejects.toThrow(
      /certificate|altnames/,
    );
  });
});
