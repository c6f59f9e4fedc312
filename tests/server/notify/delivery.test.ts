import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { verbatim } from '../../../shared/messages/message.ts';
import { plainEnglish } from '../../../shared/messages/render.ts';
import { lostFacts } from '../../../shared/notice-facts.ts';
import { branPile, yard } from '../../shared/store/journal-sample.ts';
import { minuteMs, noonMs, openService, type Service } from './notify-service.ts';

let service: Service;
beforeEach(async () => {
  service = await openService();
});
afterEach(() => service.close());

test('each person is told once of a raise, by every channel that is on', async () => {
  await service.person('ada', { webhook: { on: true, url: 'https://ada.example/hook' } });
  await service.person('bram');
  await service.raise('a');
  expect((await service.notified()).sort()).toEqual([
    'ada by email: first-raise',
    'ada by webhook: first-raise',
    'bram by email: first-raise',
  ]);
  await service.pass(30);
  expect(await service.notified()).toEqual([]);
});

test('who prefers otherwise is not told', async () => {
  await service.person('ada', { withoutKinds: ['overheating'] });
  await service.person('bram', { fromSeverity: 'urgent' });
  await service.person('cleo', { sites: [] });
  await service.raise('a');
  expect(await service.notified()).toEqual([]);
});

describe('quiet hours', () => {
  const night = { quiet: { fromMin: 12 * 60, toMin: 14 * 60 }, remindEveryMin: null };

  test('hold a warning until they end, and it goes out then', async () => {
    await service.person('ada', night);
    await service.raise('a');
    await service.pass(119);
    expect(await service.notified()).toEqual([]);
    await service.pass(1);
    expect(await service.notified()).toEqual(['ada by email: first-raise']);
  });

  test('what is over or acknowledged when they end is not told any more', async () => {
    await service.person('ada', night);
    await service.raise('a');
    await service.raise('b', { kind: 'drying' });
    await service.raise('c', { kind: 'stalling' });
    await service.pass(10);
    await service.move('a', 'normal', 'cleared');
    await service.move('b', 'acknowledged');
    await service.move('c', 'shelved');
    await service.pass(120);
    expect(await service.notified()).toEqual([]);
    const reasons = await Promise.all(
      ['a', 'b', 'c'].map(async (id) => {
        const notified = await service.journal.notifications.notices.ofAlarm(id);
        return notified.flatMap(({ messages }) =>
          messages.map(({ state, reason }) => `${state}: ${reason && plainEnglish(reason)}`),
        );
      }),
    );
    expect(reasons).toEqual([
      ['overtaken: over before it could be sent'],
      ['overtaken: acknowledged before it could be sent'],
      ['overtaken: shelved before it could be sent'],
    ]);
  });

  test('never hold the hazard of self-heating', async () => {
    await service.person('ada', { ...night, withoutKinds: ['self-heating'], fromSeverity: 'danger' });
    await service.raise('a', { kind: 'self-heating', severity: 'urgent' });
    expect(await service.notified()).toEqual(['ada by email: first-raise']);
  });
});

describe('reminders', () => {
  test('come as often as preferred while nobody acknowledges, and stop when somebody does', async () => {
    await service.person('ada', { remindEveryMin: 30 });
    await service.raise('a');
    await service.pass(29);
    expect(await service.notified()).toEqual(['ada by email: first-raise']);
    await service.pass(1);
    expect(await service.notified()).toEqual(['ada by email: reminder-due']);
    await service.pass(30);
    expect(await service.notified()).toEqual(['ada by email: reminder-due']);
    await service.move('a', 'acknowledged');
    await service.pass(90);
    expect(await service.notified()).toEqual([]);
  });

  test('wait while another warning explains it', async () => {
    await service.person('ada', { remindEveryMin: 30 });
    await service.raise('a');
    service.suppressed.add('a');
    await service.pass(60);
    expect(await service.notified()).toEqual(['ada by email: first-raise']);
  });
});

test('that it is over is told to whoever was told of it, and wants to hear', async () => {
  await service.person('ada');
  await service.person('bram', { notifyCleared: false });
  await service.person('cleo', { fromSeverity: 'danger' });
  await service.raise('a');
  await service.notified();
  await service.move('a', 'normal', 'cleared');
  expect(await service.notified()).toEqual(['ada by email: cleared']);
});

describe('where several processes share the farm', () => {
  test('whoever watches the site reminds of its warnings and says that it speaks again, and no other does', async () => {
    await service.person('ada', { remindEveryMin: 30 });
    service.isOurs = (siteId) => siteId !== yard.id;
    await service.raise('a');
    await service.raise('b', { kind: 'probe-silent', position: 'top', siteSilentSinceMs: noonMs });
    await service.pass(60);
    expect(await service.notified()).toEqual(['ada by email: first-raise', 'ada by email: first-raise']);
    service.isOurs = (siteId) => siteId === yard.id;
    await service.pass(5);
    const [cleared, reminder] = ['ada by email: cleared', 'ada by email: reminder-due'];
    expect((await service.notified()).sort()).toEqual([cleared, reminder, reminder]);
  });

  test('a daily summary is written by the one that notifies of what is of no site', async () => {
    await service.person('ada', { summaryAtMin: 12 * 60 + 30, timeZone: 'UTC' });
    service.isOurs = (siteId) => siteId !== null;
    await service.pass(60);
    expect(await service.notified()).toEqual([]);
    service.isOurs = () => true;
    await service.pass(5);
    expect(await service.notified()).toEqual(['ada by email: summary']);
  });
});

describe('the order of a site', () => {
  beforeEach(async () => {
    for (const id of ['ada', 'bram', 'cleo', 'dora']) await service.person(id, { remindEveryMin: null });
    await service.journal.notifications.escalations.set({
      siteId: yard.id,
      personIds: ['ada', 'bram', 'cleo'],
      afterMin: 15,
    });
  });

  test('tells the first and whoever is not in it, then the next when nobody acknowledges, to its end', async () => {
    await service.raise('a');
    expect((await service.notified()).sort()).toEqual(['ada by email: first-raise', 'dora by email: first-raise']);
    await service.pass(14, 1);
    expect(await service.notified()).toEqual([]);
    await service.pass(1);
    expect(await service.notified()).toEqual(['bram by email: handed-on']);
    await service.pass(15);
    expect(await service.notified()).toEqual(['cleo by email: handed-on']);
    await service.pass(60);
    expect(await service.notified()).toEqual([]);
  });

  test('stops at whoever acknowledges', async () => {
    await service.raise('a');
    await service.move('a', 'acknowledged');
    await service.notified();
    await service.pass(60);
    expect(await service.notified()).toEqual([]);
  });

  test('does not make the hazard wait', async () => {
    await service.raise('a', { kind: 'self-heating', severity: 'danger' });
    expect((await service.notified()).sort()).toEqual(
      ['ada', 'bram', 'cleo', 'dora'].map((id) => `${id} by email: first-raise`),
    );
  });
});

describe('a silent site', () => {
  const silent = { kind: 'probe-silent' as const, siteSilentSinceMs: noonMs - 30 * minuteMs };

  test('is told once instead of once per probe, and once when it speaks again', async () => {
    service.silence = 'silent';
    await service.person('ada', { remindEveryMin: null });
    for (const position of ['core', 'top', 'base', 'edge', 'air'] as const)
      await service.raise(`silent-${position}`, { ...silent, position });
    expect(await service.notified()).toEqual(['ada by email: first-raise']);
    expect(service.sent[0]?.sentence).toMatch(
      /^Saltmere Yard has fallen silent: none of its 5 probes has spoken since/,
    );
    await service.pass(10);
    expect(await service.notified()).toEqual([]);
    service.silence = 'speaks';
    for (const position of ['core', 'top', 'base', 'edge', 'air'])
      await service.move(`silent-${position}`, 'normal', 'cleared');
    await service.pass(30);
    expect(await service.notified()).toEqual(['ada by email: cleared']);
    expect(service.sent.at(-1)?.sentence).toMatch(/^Saltmere Yard speaks again after/);
  });

  test('leaves a probe that stays silent to be told by itself a quarter of an hour later', async () => {
    service.silence = 'silent';
    await service.person('ada', { remindEveryMin: null });
    await service.raise('silent-core', { ...silent, position: 'core' });
    await service.raise('silent-top', { ...silent, position: 'top' });
    await service.pass(10);
    service.silence = 'speaks';
    await service.move('silent-core', 'normal', 'cleared');
    await service.pass(10);
    expect(await service.notified()).toEqual(['ada by email: first-raise', 'ada by email: cleared']);
    await service.pass(15);
    expect(await service.notified()).toEqual(['ada by email: first-raise']);
    expect(service.sent.at(-1)?.sentence).toMatch(/^The top probe of Bran bay at Saltmere Yard has fallen silent\./);
  });

  test('a probe that falls silent alone is told as itself', async () => {
    await service.person('ada');
    await service.raise('silent-core', { kind: 'probe-silent', position: 'core' });
    await service.notified();
    expect(service.sent[0]?.sentence).toMatch(/^The core probe of Bran bay at Saltmere Yard has fallen silent\./);
  });
});

describe('a person who cannot be reached', () => {
  test('is asked by a channel they have switched off, and somebody else is told that they were not', async () => {
    await service.person('ada', { webhook: { on: false, url: 'https://ada.example/hook' } });
    await service.person('owen', { sites: [] }, 'owner');
    service.answer = ({ message }) =>
      message.channel === 'email' && message.personId === 'ada'
        ? { outcome: 'refused', detail: verbatim('550 no such mailbox') }
        : { outcome: 'sent', detail: verbatim('taken') };
    await service.raise('a');
    expect((await service.notified()).sort()).toEqual(['ada by webhook: first-raise', 'owen by email: not-reached']);
    expect(service.sent.find(({ person }) => person === 'owen')?.sentence).toMatch(/because ada could not be reached/);
    const [lost] = await service.journal.notifications.messages.undelivered(9);
    expect([lost?.personId, lost?.reason]).toEqual(['ada', verbatim('550 no such mailbox')]);
    expect((await service.delivery.health()).state).toBe('degraded');
  });

  test('does not make others hear of it twice when one of their channels worked', async () => {
    await service.person('ada', { webhook: { on: true, url: 'https://ada.example/hook' } });
    await service.person('owen', {}, 'owner');
    service.answer = ({ message }) =>
      message.channel === 'email' && message.personId === 'ada'
        ? { outcome: 'refused', detail: verbatim('550') }
        : { outcome: 'sent', detail: verbatim('taken') };
    await service.raise('a');
    expect((await service.notified()).sort()).toEqual(['ada by webhook: first-raise', 'owen by email: first-raise']);
  });
});

test('the summary of the day comes once, at its minute, however often it is looked at', async () => {
  await service.person('ada', { summaryAtMin: 12 * 60 + 30 });
  await service.pass(29);
  expect(await service.notified()).toEqual([]);
  await service.pass(60);
  expect(await service.notified()).toEqual(['ada by email: summary']);
  await service.pass(24 * 60, 60);
  expect(await service.notified()).toEqual(['ada by email: summary']);
});

test('that nobody can be told any more is said on health before the messages that were lost', async () => {
  await service.person('ada');
  service.answer = () => ({ outcome: 'refused', detail: verbatim('550') });
  await service.raise('a');
  await service.pass(5);
  expect((await service.delivery.health()).state).toBe('degraded');
  await service.person('ada', { email: { on: false, address: '' } });
  expect((await service.delivery.health()).state).toBe('off');
});

test('a viewer is notified without a way to acknowledge, which is for keepers, whatever it was sent by', async () => {
  await service.person('kim');
  await service.person('vera', {}, 'viewer');
  const acknowledging: Record<string, boolean> = {};
  service.answer = ({ message, ack }) => {
    acknowledging[message.personName] = ack !== undefined;
    return { outcome: 'sent', detail: verbatim('taken') };
  };
  await service.raise('a');
  expect(acknowledging).toEqual({ kim: true, vera: false });
});

test('nobody set up is said on health', async () => {
  await service.person('ada', { email: { on: false, address: '' } });
  expect(await service.delivery.health()).toMatchObject({
    state: 'off',
    detail: expect.stringMatching(/reach nobody/),
  });
});

test('a notice whose facts cannot be read is set aside and said to owners and in health; those behind it go out', async () => {
  await service.person('ada', {}, 'owner');
  await service.person('vera', {}, 'viewer');
  const broken = { about: 'alarm', answer: 'first-raise', rank: 3, siteId: yard.id, pileId: branPile.id } as const;
  const same = { ...broken, alarmId: 'gone', personId: null, atMs: noonMs, dueMs: noonMs };
  await service.journal.notifications.notices.add([
    { ...same, id: 'n-cut', key: 'cut', facts: lostFacts },
    { ...same, id: 'n-null', key: 'null', facts: lostFacts },
  ]);
  await service.raise('a');
  expect((await service.notified()).sort()).toEqual([
    'ada by email: first-raise',
    'ada by email: first-raise',
    'ada by email: first-raise',
    'vera by email: first-raise',
  ]);
  expect(
    service.sent.filter(({ sentence }) => sentence.includes('cannot be read')).map(({ person }) => person),
  ).toEqual(['ada', 'ada']);
  for (const id of ['n-cut', 'n-null'])
    expect(await service.journal.notifications.notices.get(id)).toMatchObject({ state: 'set-aside', messages: [] });
  expect(await service.delivery.health()).toMatchObject({
    state: 'degraded',
    detail: expect.stringContaining('2 warnings of the last days could not be read'),
  });
  await service.pass(60);
  expect((await service.notified()).filter((line) => !line.endsWith('reminder-due'))).toEqual([]);
});
