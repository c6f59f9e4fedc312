/** What any journal must keep of what people are told. */
import { describe, expect, test } from 'vitest';
import { verbatim } from '../../../shared/messages/message.ts';
import { preferencesSchema } from '../../../shared/notifications.ts';
import type { Journal } from '../../../shared/store/journal.ts';
import type { Lease, MessageRecord, NoticeRecord } from '../../../shared/store/notifications-store.ts';
import { beginMs, branBatch, branPile, raised, tooWarm, yard } from './journal-sample.ts';

export const notice: NoticeRecord = {
  id: 'notice-1',
  key: 'alarm/alarm-1/1/raised',
  about: 'alarm',
  answer: 'first-raise',
  rank: 1,
  siteId: yard.id,
  pileId: branPile.id,
  alarmId: tooWarm.id,
  personId: null,
  atMs: beginMs,
  dueMs: beginMs,
  facts: {
    kind: 'overheating',
    position: 'core',
    severity: 'warning',
    seen: verbatim('Something was seen.'),
    todo: verbatim('Do something.'),
    byMs: null,
    caution: null,
    raisedAtMs: beginMs,
  },
};
export const message: MessageRecord = {
  id: 'message-1',
  noticeId: notice.id,
  personId: 'ada',
  personName: 'Ada',
  channel: 'email',
  address: 'ada@saltmere.example',
  addressLabel: 'ada@saltmere.example',
  rank: 1,
  state: 'waiting',
  reason: null,
  madeAtMs: beginMs,
  notBeforeMs: beginMs,
  tries: 0,
  nextTryMs: 1_000,
  doneAtMs: null,
  seenAtMs: null,
};
export const lease = (taker: string, machineNowMs = 1_000): Lease => ({
  taker,
  machineNowMs,
  untilMs: machineNowMs + 30_000,
});
export const attempt = {
  messageId: message.id,
  number: 1,
  atMs: beginMs,
  tookMs: 12,
  outcome: 'sent' as const,
  detail: verbatim('250 taken'),
};
const sent = { attempt, state: 'sent' as const, reason: null, nextTryMs: 0, doneAtMs: beginMs };

export function notificationsContract(name: string, open: () => Promise<Journal>): void {
  describe(name, () => {
    async function withAlarm(check: (journal: Journal) => Promise<void>) {
      const journal = await open();
      await journal.sites.add(yard);
      await journal.piles.add(branPile, branBatch);
      await journal.watch.keep({ alarms: [tooWarm], steps: [raised], watch: null, notices: [notice] });
      await check(journal);
      await journal.close();
    }
    const fanOut = (journal: Journal, messages = [message]) =>
      journal.notifications.notices.fanOut({ noticeId: notice.id, state: 'fanned-out', messages });

    test('a notice is kept with its alarm or not at all', () =>
      withAlarm(async (journal) => {
        expect((await journal.notifications.notices.get(notice.id))?.state).toBe('new');
        const ofNoAlarm = { ...raised, alarmId: 'no-such-alarm' };
        const other = { ...notice, id: 'notice-2', key: 'another' };
        await expect(
          journal.watch.keep({ alarms: [], steps: [ofNoAlarm], watch: null, notices: [other] }),
        ).rejects.toThrow();
        expect(await journal.notifications.notices.byKey('another')).toBeUndefined();
      }));

    test('a known key is not kept twice', () =>
      withAlarm(async (journal) => {
        await journal.notifications.notices.add([{ ...notice, id: 'notice-2', answer: 'got-worse' }]);
        expect(await journal.notifications.notices.byKey(notice.key)).toEqual({
          ...notice,
          state: 'new',
          joinedId: null,
        });
        expect(await journal.notifications.notices.get('notice-2')).toBeUndefined();
      }));

    test('a notice is taken by one, until the lease is over; not before it is due', () =>
      withAlarm(async (journal) => {
        const { notices } = journal.notifications;
        expect(await notices.take(beginMs - 1, lease('one'), 10)).toEqual([]);
        expect(await notices.take(beginMs, lease('one'), 10)).toHaveLength(1);
        expect(await notices.take(beginMs, lease('two', 30_999), 10)).toEqual([]);
        expect(await notices.take(beginMs, lease('two', 31_000), 10)).toHaveLength(1);
      }));

    test('a notice is fanned out once, whoever comes second', () =>
      withAlarm(async (journal) => {
        expect(await fanOut(journal)).toBe(true);
        expect(await fanOut(journal, [{ ...message, id: 'message-2', personId: 'bram' }])).toBe(false);
        const notified = await journal.notifications.notices.get(notice.id);
        expect(notified).toMatchObject({ state: 'fanned-out', messages: [{ ...message, attempts: [] }] });
        expect(await journal.notifications.notices.take(beginMs, lease('one', 1e9), 10)).toEqual([]);
      }));

    test('a message is taken by one way and one taker, the most pressing first, held ones not before their time', () =>
      withAlarm(async (journal) => {
        const pressing = { ...message, id: 'message-2', personId: 'bram', rank: 3 };
        const held = {
          ...message,
          id: 'message-3',
          personId: 'cleo',
          state: 'held' as const,
          notBeforeMs: beginMs + 9,
        };
        await fanOut(journal, [message, pressing, held]);
        const { messages } = journal.notifications;
        expect(await messages.take('push', beginMs, lease('one'), 10)).toEqual([]);
        expect((await messages.take('email', beginMs, lease('one'), 1)).map(({ id }) => id)).toEqual(['message-2']);
        expect((await messages.take('email', beginMs, lease('two'), 9)).map(({ id }) => id)).toEqual(['message-1']);
        expect((await messages.take('email', beginMs + 9, lease('two'), 9)).map(({ id }) => id)).toEqual(['message-3']);
      }));

    test('an attempt is noted by its taker only, and ends the message', () =>
      withAlarm(async (journal) => {
        await fanOut(journal);
        const { messages, notices } = journal.notifications;
        await messages.take('email', beginMs, lease('one'), 9);
        expect(await messages.attempted('two', sent)).toBe(false);
        expect(await messages.attempted('one', sent)).toBe(true);
        expect(await messages.attempted('one', sent)).toBe(false);
        const notified = await notices.ofAlarm(tooWarm.id);
        expect(notified[0]?.messages).toEqual([
          { ...message, state: 'sent', tries: 1, nextTryMs: 0, doneAtMs: beginMs, attempts: [attempt] },
        ]);
        expect(await notices.notifiedOf([tooWarm.id])).toMatchObject([
          { alarmId: tooWarm.id, personId: 'ada', lastAtMs: beginMs, count: 1, reached: true },
        ]);
      }));

    test('a failed one waits for its next try; one given up stays to be seen', () =>
      withAlarm(async (journal) => {
        await fanOut(journal);
        const { messages, notices } = journal.notifications;
        await messages.take('email', beginMs, lease('one'), 9);
        const failed = { ...attempt, outcome: 'failed' as const, detail: verbatim('451 later') };
        const again = { state: 'waiting' as const, reason: verbatim('451 later'), nextTryMs: 6_000, doneAtMs: null };
        await messages.attempted('one', { attempt: failed, ...again });
        expect(await messages.take('email', beginMs, lease('one', 5_999), 9)).toEqual([]);
        expect(await messages.take('email', beginMs, lease('one', 6_000), 9)).toHaveLength(1);
        expect((await notices.notifiedOf([tooWarm.id]))[0]?.reached).toBe(false);
        const refused = { ...attempt, number: 2, outcome: 'refused' as const, detail: verbatim('550 no') };
        const up = { state: 'given-up' as const, reason: verbatim('550 no'), nextTryMs: 0, doneAtMs: beginMs + 5 };
        await messages.attempted('one', { attempt: refused, ...up });
        const [lost] = await messages.undelivered(10);
        expect([lost?.id, lost?.notice.id, lost?.attempts.length]).toEqual([message.id, notice.id, 2]);
        expect(await messages.counts()).toEqual([
          { channel: 'email', state: 'given-up', count: 1, oldestMs: beginMs, unseen: 1 },
        ]);
        expect(await messages.seen(message.id, beginMs + 9)).toBe(true);
        expect(await messages.undelivered(10)).toEqual([]);
      }));

    test('what was taken by one that died is free again once released', () =>
      withAlarm(async (journal) => {
        await fanOut(journal);
        const { messages } = journal.notifications;
        await messages.take('email', beginMs, lease('dead'), 9);
        await messages.releaseAll();
        expect(await messages.take('email', beginMs, lease('one'), 9)).toHaveLength(1);
      }));

    test('old notices are cleaned up with all that hangs on them, those that wait are not', () =>
      withAlarm(async (journal) => {
        await fanOut(journal);
        const { messages, notices, links } = journal.notifications;
        const link = {
          digest: 'd',
          noticeId: notice.id,
          personId: 'ada',
          personName: 'Ada',
          channel: 'email' as const,
        };
        await links.add({ ...link, expiresAtMs: beginMs + 9, usedAtMs: null });
        expect(await messages.cleanUp(beginMs + 1)).toBe(0);
        await messages.take('email', beginMs, lease('one'), 9);
        await messages.attempted('one', sent);
        expect(await messages.cleanUp(beginMs)).toBe(0);
        expect(await messages.cleanUp(beginMs + 1)).toBe(1);
        expect(await notices.get(notice.id)).toBeUndefined();
        expect(await links.get('d')).toBeUndefined();
      }));

    test('a link is used once', () =>
      withAlarm(async (journal) => {
        const { links } = journal.notifications;
        const link = {
          digest: 'd',
          noticeId: notice.id,
          personId: 'ada',
          personName: 'Ada',
          channel: 'email' as const,
        };
        await links.add({ ...link, expiresAtMs: beginMs + 9, usedAtMs: null });
        expect(await links.use('d', beginMs + 1)).toBe(true);
        expect(await links.use('d', beginMs + 2)).toBe(false);
        expect(await links.get('d')).toEqual({ ...link, expiresAtMs: beginMs + 9, usedAtMs: beginMs + 1 });
        expect(await links.get('other')).toBeUndefined();
      }));

    test('a device goes with who sits at it now: one’s own moves along, another’s ends', () =>
      withAlarm(async (journal) => {
        const { devices } = journal.notifications;
        const endpoint = 'https://push.example/here';
        const keys = { p256dh: 'key', auth: 'secret', label: 'phone', addedAtMs: 1, lastOkAtMs: null };
        await devices.keep({ id: 'phone', personId: 'ada', endpoint, ...keys, madeWith: null });
        expect(await devices.here('https://push.example/elsewhere', 'ada', 'one')).toBe('unknown');
        expect(await devices.here(endpoint, 'ada', 'one')).toBe('moved');
        expect(await devices.here(endpoint, 'ada', 'one')).toBe('known');
        expect(await devices.list('ada')).toMatchObject([{ id: 'phone', madeWith: 'one' }]);
        expect(await devices.here(endpoint, 'bram', 'two')).toBe('anothers');
        expect(await devices.list()).toEqual([]);
      }));

    test('an address waits, is tried, and once confirmed is the only one of its person', () =>
      withAlarm(async (journal) => {
        const { mailAddresses: mail } = journal.notifications;
        await mail.ask('ada', 'Ada@x.example', 5);
        expect(await mail.tried('ada', 'ada@X.example')).toMatchObject({ standing: 'waiting', askedAtMs: 5, tries: 1 });
        expect(await mail.tried('ada', 'ada@x.example')).toMatchObject({ tries: 2 });
        expect(await mail.tried('bram', 'ada@x.example')).toBeUndefined();
        await mail.ask('ada', 'ada@x.example', 9);
        const asked = {
          personId: 'ada',
          address: 'ada@x.example',
          standing: 'waiting',
          sinceMs: 5,
          askedAtMs: 9,
          tries: 0,
        };
        expect(await mail.list('ada')).toEqual([asked]);
        await mail.ask('ada', 'other@x.example', 9);
        await mail.ask('bram', 'ada@x.example', 9);
        await mail.confirm('ada', 'ADA@x.example', 11);
        expect(await mail.list('ada')).toEqual([{ ...asked, standing: 'confirmed', sinceMs: 11, askedAtMs: null }]);
        expect(await mail.list()).toHaveLength(2);
        await mail.forget('ada');
        expect((await mail.list()).map(({ personId }) => personId)).toEqual(['bram']);
      }));

    test('many attempts at once count as many', () =>
      withAlarm(async (journal) => {
        const { mailAddresses: mail } = journal.notifications;
        await mail.ask('ada', 'ada@x.example', 5);
        const tries = await Promise.all(Array.from({ length: 8 }, () => mail.tried('ada', 'ada@x.example')));
        expect(tries.map((row) => row?.tries).sort()).toEqual([1, 2, 3, 4, 5, 6, 7, 8]);
      }));

    test('preferences, devices and orders keep the last that was set', () =>
      withAlarm(async (journal) => {
        const { preferences, devices, escalations } = journal.notifications;
        const second = preferencesSchema.parse({ unit: 'F' });
        await preferences.set('ada', preferencesSchema.parse({}));
        await preferences.set('ada', second);
        expect(await preferences.list()).toEqual([{ personId: 'ada', preferences: second }]);
        const device = {
          id: 'phone',
          personId: 'ada',
          endpoint: 'https://push.example/1',
          p256dh: 'key',
          auth: 'secret',
          label: 'phone',
          addedAtMs: 1,
          lastOkAtMs: null,
          madeWith: 'session-1',
        };
        await devices.keep(device);
        await devices.keep({ ...device, id: 'other', personId: 'bram' });
        expect(await devices.list()).toEqual([{ ...device, personId: 'bram' }]);
        await devices.worked('phone', 7);
        expect((await devices.list('bram'))[0]?.lastOkAtMs).toBe(7);
        expect(await devices.list('ada')).toEqual([]);
        expect(await devices.remove('phone', 'ada')).toBe(false);
        expect(await devices.remove('phone', 'bram')).toBe(true);
        expect(await devices.remove('phone')).toBe(false);
        await escalations.set({ siteId: yard.id, personIds: ['ada'], afterMin: 15 });
        await escalations.set({ siteId: yard.id, personIds: ['bram', 'ada'], afterMin: 20 });
        expect(await escalations.list()).toEqual([{ siteId: yard.id, personIds: ['bram', 'ada'], afterMin: 20 }]);
        await escalations.setStep({ alarmId: tooWarm.id, step: 0, atMs: 1 });
        await escalations.setStep({ alarmId: tooWarm.id, step: 1, atMs: 2 });
        expect(await escalations.steps([tooWarm.id])).toEqual([{ alarmId: tooWarm.id, step: 1, atMs: 2 }]);
      }));

    test('a silent site is open until it is told to speak again', () =>
      withAlarm(async (journal) => {
        const { notices } = journal.notifications;
        const site = { ...notice, id: 'site-1', key: 'site-silent/yard/1', about: 'site' as const };
        await notices.add([site]);
        expect((await notices.openSites(beginMs)).map(({ id }) => id)).toEqual(['site-1']);
        expect(await notices.openSites(beginMs + 1)).toEqual([]);
        await notices.add([{ ...site, id: 'site-2', key: `${site.key}/over`, answer: 'cleared' }]);
        expect(await notices.openSites(beginMs)).toEqual([]);
        await notices.fanOut({ noticeId: notice.id, state: 'joined', joinedId: 'site-1' });
        expect((await notices.joinedTo('site-1')).map(({ id }) => id)).toEqual([notice.id]);
        expect((await notices.ofAlarm(tooWarm.id)).map(({ id }) => id).sort()).toEqual([
          'notice-1',
          'site-1',
          'site-2',
        ]);
      }));
  });
}
