/**
 * What the README says of backing up a journal in PostgreSQL, done with PostgreSQL's own programs.
 */
import { execFileSync } from 'node:child_process';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { openPostgresJournal } from '../../../shared/store/journal/postgres-journal.ts';
import { hasPostgres, type Postgres, postgresProgram, startPostgres } from '../../helpers/postgres.ts';
import { until } from '../../helpers/until.ts';
import {
  branBatch,
  branLot,
  branPile,
  laidFrom,
  oakLot,
  raised,
  smelt,
  terrace,
  tooWarm,
  yard,
} from './journal-sample.ts';

const digest = 'ab'.repeat(32);

describe.skipIf(!hasPostgres)('a journal saved with pg_dump and put back with pg_restore', () => {
  let postgres: Postgres;
  let folder: string;
  let [before, after] = ['', ''];

  /** The rows of every table as text, so that nothing is overlooked. */
  const dataOf = (url: string) =>
    execFileSync(postgresProgram('pg_dump'), ['--data-only', '--inserts', url], { encoding: 'utf8' })
      .split('\n')
      .filter((line) => /^(INSERT|SELECT pg_catalog.setval)/.test(line));

  beforeAll(async () => {
    [postgres, folder] = await Promise.all([
      startPostgres({ fsync: 'off' }),
      mkdtemp(join(tmpdir(), 'branhearth-dump-')),
    ]);
    [before, after] = [await postgres.database(), await postgres.database()];
    const journal = await openPostgresJournal(before);
    await journal.sites.add(yard);
    await journal.piles.add(branPile, branBatch);
    await journal.lineage.keep({ lots: [oakLot, branLot], flows: [laidFrom] }, () => {});
    await journal.entries.add({ ...smelt, photoIds: [] });
    await journal.watch.keep({ alarms: [tooWarm], steps: [raised], watch: null });
    await journal.pictures.keep(digest, { whole: Buffer.from([0, 255, 216, 92]), small: Buffer.from('small') });
    const kept = join(folder, 'journal.dump');
    // A server may be at work on it meanwhile.
    execFileSync(postgresProgram('pg_dump'), ['--format=custom', `--file=${kept}`, before]);
    await journal.close();
    execFileSync(postgresProgram('pg_restore'), [`--dbname=${after}`, kept]);
  });
  afterAll(async () => {
    await postgres?.remove();
    await rm(folder, { recursive: true, force: true });
  });

  test('holds what it held, row by row, photos too', () => {
    const rows = dataOf(after);
    expect(rows.length).toBeGreaterThan(10);
    expect(rows).toEqual(dataOf(before));
  });

  test('is opened and written on, and others hear of it', async () => {
    const [journal, recipient] = [await openPostgresJournal(after), await openPostgresJournal(after)];
    expect(await journal.batches.list()).toEqual([branBatch]);
    expect(Buffer.from((await journal.pictures.read(digest, 'whole')) ?? [])).toEqual(Buffer.from([0, 255, 216, 92]));
    const news: string[] = [];
    const line = recipient.hear(({ topic, about }) => news.push(`${topic} ${about}`));
    await until('the line', () => (news.includes('missed ') ? true : undefined));
    await journal.sites.add(terrace);
    // Rules of the tables came along: of one kind in one place one alarm is open.
    const another = { ...tooWarm, id: 'another' };
    const keep = (alarm: typeof tooWarm) =>
      journal.watch.keep({ alarms: [alarm], steps: [{ ...raised, alarmId: alarm.id }], watch: null });
    await expect(keep(another)).rejects.toThrow(/one_open_alarm/);
    await keep({ ...another, kind: 'drying' });
    await until('the news', () => (news.includes('changed site') ? true : undefined));
    expect((await recipient.alarms.open()).map(({ id }) => id).sort()).toEqual([tooWarm.id, 'another'].sort());
    await line.close();
    await journal.close();
    await recipient.close();
  });
});
