import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { lostFacts } from '../../../shared/notice-facts.ts';
import { branPile, yard } from '../../shared/store/journal-sample.ts';
import { type Desk, minuteMs, noonMs, openDesk } from './notify-service.ts';

let desk: Desk;
beforeEach(async () => {
  desk = await openDesk();
});
afterEach(() => desk.close());

test('each person is told once of a raise, by every way that is on', async () => {
  await desk.person('ada', { webhook: { on: true, url: 'https://ada.example/hook' } });
  await desk.person('bram');
  await desk.raise('a');
  expect((await desk.told()).sort()).toEqual([
    'ada by email: first-raise',
    'ada by webhook: first-raise',
    'bram by email: first-raise',
  ]);
  await desk.pass(30);
  expect(await desk.told()).toEqual([]);
});

test('who wishes otherwise is not told', async () => {
  await desk.person('ada', { withoutKinds: ['overheating'] });
  await desk.person('bram', { fromSeverity: 'urgent' });
  await desk.person('cleo', { sites: [] });
  await desk.raise('a');
  expect(await desk.told()).toEqual([]);
});

describe('quiet hours', () => {
  const night = { quiet: { fromMin: 12 * 60, toMin: 14 * 60 }, remindEveryMin: null };

  test('hold a warning until they end, and it goes out then', async () => {
    await desk.person('ada', night);
    await desk.raise('a');
    await desk.pass(119);
    expect(await desk.told()).toEqual([]);
    await desk.pass(1);
    expect(await desk.told()).toEqual(['ada by email: first-raise']);
  });

  test('what is over or acknowledged when they end is not told any more', async () => {
    await desk.person('ada', night);
    await desk.raise('a');
    await desk.raise('b', { kind: 'drying' });
    await desk.raise('c', { kind: 'stalling' });
    await desk.pass(10);
    await desk.move('a', 'normal', 'cleared');
    await desk.move('b', 'acknowledged');
    await desk.move('c', 'shelved');
    await desk.pass(120);
    expect(await desk.told()).toEqual([]);
    const reasons = await Promise.all(
      ['a', 'b', 'c'].map(async (id) => {
        const told = await desk.journal.telling.notices.ofAlarm(id);
        return told.flatMap(({ messages }) => messages.map(({ state, reason }) => `${state}: ${reason}`));
      }),
    );
    expect(reasons).toEqual([
      ['overtaken: over before it could be told'],
      ['overtaken: acknowledged before it could be told'],
      ['overtaken: shelved before it could be told'],
    ]);
  });

  test('never hold the hazard of self-heating', async () => {
    await desk.person('ada', { ...night, withoutKinds: ['self-heating'], fromSeverity: 'danger' });
    await desk.raise('a', { kind: 'self-heating', severity: 'urgent' });
    expect(await desk.told()).toEqual(['ada by email: first-raise']);
  });
});

describe('reminders', () => {
  test('come as often as wished while nobody acknowledges, and stop when somebody does', async () => {
    await desk.person('ada', { remindEveryMin: 30 });
    await desk.raise('a');
    await desk.pass(29);
    expect(await desk.told()).toEqual(['ada by email: first-raise']);
    await desk.pass(1);
    expect(await desk.told()).toEqual(['ada by email: reminder-due']);
    await desk.pass(30);
    expect(await desk.told()).toEqual(['ada by email: reminder-due']);
    await desk.move('a', 'acknowledged');
    await desk.pass(90);
    expect(await desk.told()).toEqual([]);
  });

  test('wait while another warning explains it', async () => {
    await desk.person('ada', { remindEveryMin: 30 });
    await desk.raise('a');
    desk.heldBack.add('a');
    await desk.pass(60);
    expect(await desk.told()).toEqual(['ada by email: first-raise']);
  });
});

test('that it is over is told to whoever was told of it, and wishes to hear', async () => {
  await desk.person('ada');
  await desk.person('bram', { tellCleared: false });
  await desk.person('cleo', { fromSeverity: 'danger' });
  await desk.raise('a');
  await desk.told();
  await desk.move('a', 'normal', 'cleared');
  expect(await desk.told()).toEqual(['ada by email: cleared']);
});

describe('the order of a site', () => {
  beforeEach(async () => {
    for (const id of ['ada', 'bram', 'cleo', 'dora']) await desk.person(id, { remindEveryMin: null });
    await desk.journal.telling.handOn.set({ siteId: yard.id, personIds: ['ada', 'bram', 'cleo'], afterMin: 15 });
  });

  test('tells the first and whoever is not in it, then the next when nobody acknowledges, to its end', async () => {
    await desk.raise('a');
    expect((await desk.told()).sort()).toEqual(['ada by email: first-raise', 'dora by email: first-raise']);
    await desk.pass(14, 1);
    expect(await desk.told()).toEqual([]);
    await desk.pass(1);
    expect(await desk.told()).toEqual(['bram by email: handed-on']);
    await desk.pass(15);
    expect(await desk.told()).toEqual(['cleo by email: handed-on']);
    await desk.pass(60);
    expect(await desk.told()).toEqual([]);
  });

  test('stops at whoever acknowledges', async () => {
    await desk.raise('a');
    await desk.move('a', 'acknowledged');
    await desk.told();
    await desk.pass(60);
    expect(await desk.told()).toEqual([]);
  });

  test('does not make the hazard wait', async () => {
    await desk.raise('a', { kind: 'self-heating', severity: 'danger' });
    expect((await desk.told()).sort()).toEqual(
      ['ada', 'bram', 'cleo', 'dora'].map((id) => `${id} by email: first-raise`),
    );
  });
});

describe('a silent site', () => {
  const silent = { kind: 'probe-silent' as const, siteSilentSinceMs: noonMs - 30 * minuteMs };

  test('is told once instead of once per probe, and once when it speaks again', async () => {
    desk.silence = 'silent';
    await desk.person('ada', { remindEveryMin: null });
    for (const position of ['core', 'top', 'base', 'edge', 'air'] as const)
      await desk.raise(`silent-${position}`, { ...silent, position });
    expect(await desk.told()).toEqual(['ada by email: first-raise']);
    expect(desk.sent[0]?.sentence).toMatch(/^Saltmere Yard has fallen silent: none of its 5 probes has spoken since/);
    await desk.pass(10);
    expect(await desk.told()).toEqual([]);
    desk.silence = 'speaks';
    for (const position of ['core', 'top', 'base', 'edge', 'air'])
      await desk.move(`silent-${position}`, 'normal', 'cleared');
    await desk.pass(30);
    expect(await desk.told()).toEqual(['ada by email: cleared']);
    expect(desk.sent.at(-1)?.sentence).toMatch(/^Saltmere Yard speaks again after/);
  });

  test('leaves a probe that stays silent to be told by itself a quarter of an hour later', async () => {
    desk.silence = 'silent';
    await desk.person('ada', { remindEveryMin: null });
    await desk.raise('silent-core', { ...silent, position: 'core' });
    await desk.raise('silent-top', { ...silent, position: 'top' });
    await desk.pass(10);
    desk.silence = 'speaks';
    await desk.move('silent-core', 'normal', 'cleared');
    await desk.pass(10);
    expect(await desk.told()).toEqual(['ada by email: first-raise', 'ada by email: cleared']);
    await desk.pass(15);
    expect(await desk.told()).toEqual(['ada by email: first-raise']);
    expect(desk.sent.at(-1)?.sentence).toMatch(/^The top probe of Bran bay at Saltmere Yard has fallen silent\./);
  });

  test('a probe that falls silent alone is told as itself', async () => {
    await desk.person('ada');
    await desk.raise('silent-core', { kind: 'probe-silent', position: 'core' });
    await desk.told();
    expect(desk.sent[0]?.sentence).toMatch(/^The core probe of Bran bay at Saltmere Yard has fallen silent\./);
  });
});

describe('a person who cannot be reached', () => {
  test('is asked by a way they have switched off, and somebody else is told that they were not', async () => {
    await desk.person('ada', { webhook: { on: false, url: 'https://ada.example/hook' } });
    await desk.person('owen', { sites: [] }, 'owner');
    desk.answer = ({ message }) =>
      message.way === 'email' && message.personId === 'ada'
        ? { outcome: 'refused', detail: '550 no such mailbox' }
        : { outcome: 'sent', detail: 'taken' };
    await desk.raise('a');
    expect((await desk.told()).sort()).toEqual(['ada by webhook: first-raise', 'owen by email: not-reached']);
    expect(desk.sent.find(({ person }) => person === 'owen')?.sentence).toMatch(/because ada could not be reached/);
    const [lost] = await desk.journal.telling.messages.undelivered(9);
    expect([lost?.personId, lost?.reason]).toEqual(['ada', '550 no such mailbox']);
    expect((await desk.delivery.health()).state).toBe('degraded');
  });

  test('does not make others hear of it twice when one of their ways worked', async () => {
    await desk.person('ada', { webhook: { on: true, url: 'https://ada.example/hook' } });
    await desk.person('owen', {}, 'owner');
    desk.answer = ({ message }) =>
      message.way === 'email' && message.personId === 'ada'
        ? { outcome: 'refused', detail: '550' }
        : { outcome: 'sent', detail: 'taken' };
    await desk.raise('a');
    expect((await desk.told()).sort()).toEqual(['ada by webhook: first-raise', 'owen by email: first-raise']);
  });
});

test('the summary of the day comes once, at its minute, however often it is looked at', async () => {
  await desk.person('ada', { summaryAtMin: 12 * 60 + 30 });
  await desk.pass(29);
  expect(await desk.told()).toEqual([]);
  await desk.pass(60);
  expect(await desk.told()).toEqual(['ada by email: summary']);
  await desk.pass(24 * 60, 60);
  expect(await desk.told()).toEqual(['ada by email: summary']);
});

test('that nobody can be told any more is said on health before the messages that were lost', async () => {
  await desk.person('ada');
  desk.answer = () => ({ outcome: 'refused', detail: '550' });
  await desk.raise('a');
  await desk.pass(5);
  expect((await desk.delivery.health()).state).toBe('degraded');
  await desk.person('ada', { email: { on: false, address: '' } });
  expect((await desk.delivery.health()).state).toBe('off');
});

test('nobody set up is said on health', async () => {
  await desk.person('ada', { email: { on: false, address: '' } });
  expect(await desk.delivery.health()).toMatchObject({ state: 'off', detail: expect.stringMatching(/reach nobody/) });
});

test('a notice whose facts cannot be read is set aside and said to owners and in health; those behind it go out', async () => {
  await desk.person('ada', {}, 'owner');
  await desk.person('vera', {}, 'viewer');
  const broken = { about: 'alarm', answer: 'first-raise', rank: 3, siteId: yard.id, pileId: branPile.id } as const;
  const same = { ...broken, alarmId: 'gone', personId: null, atMs: noonMs, dueMs: noonMs };
  await desk.journal.telling.notices.add([
    { ...same, id: 'n-cut', key: 'cut', facts: lostFacts },
    { ...same, id: 'n-null', key: 'null', facts: lostFacts },
  ]);
  await desk.raise('a');
  expect((await desk.told()).sort()).toEqual([
    'ada by email: first-raise',
    'ada by email: first-raise',
    'ada by email: first-raise',
    'vera by email: first-raise',
  ]);
  expect(desk.sent.filter(({ sentence }) => sentence.includes('cannot be read')).map(({ person }) => person)).toEqual([
    'ada',
    'ada',
  ]);
  for (const id of ['n-cut', 'n-null'])
    expect(await desk.journal.telling.notices.get(id)).toMatchObject({ state: 'set-aside', messages: [] });
  expect(await desk.delivery.health()).toMatchObject({
    state: 'degraded',
    detail: expect.stringContaining('2 warnings of the last days could not be read'),
  });
  await desk.pass(60);
  expect((await desk.told()).filter((line) => !line.endsWith('reminder-due'))).toEqual([]);
});
