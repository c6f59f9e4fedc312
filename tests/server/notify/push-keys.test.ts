import { randomUUID } from 'node:crypto';
import pino from 'pino';
import { expect, test } from 'vitest';
import { PushKeys } from '../../../server/notify/channels/push-keys.ts';
import { openSqliteJournal } from '../../../shared/store/journal/sqlite-journal.ts';

const clock = { nowMs: () => 1_932_595_200_000, speed: 1 };

test('PushKeys says in the log that damaged keys were made anew and how many devices end, and makes one pair for all who ask', async () => {
  const journal = await openSqliteJournal(':memory:');
  const lines: string[] = [];
  const log = pino({ level: 'error' }, { write: (line) => void lines.push(line) });
  const keys = new PushKeys({ journal, clock, log, newId: randomUUID });
  const [one, two] = await Promise.all([keys.pair(), keys.pair()]);
  expect(two).toEqual(one);
  expect(lines).toEqual([]);

  await journal.settings.set('push-keys', JSON.stringify({ ...one, privateKey: one.privateKey.slice(1) }));
  const again = await Promise.all([keys.pair(), keys.pair(), keys.check()]);
  expect(again[0]?.publicKey).not.toBe(one.publicKey);
  expect(again[1]).toEqual(again[0]);
  expect(lines).toHaveLength(1);
  expect(lines[0]).toContain('The keys for push messages were damaged and were made anew. No device was signed up.');
  expect(journal.unreadable.list()).toEqual([]);
  await journal.close();
});

test('PushKeys.check() makes no keys where none were needed yet', async () => {
  const journal = await openSqliteJournal(':memory:');
  await new PushKeys({ journal, clock, log: pino({ level: 'silent' }), newId: randomUUID }).check();
  expect(await journal.settings.get('push-keys')).toBeUndefined();
  await journal.close();
});
