// Which regions read am and pm comes from CLDR, by way of Intl.
import { describe, expect, test } from 'vitest';
import { renderContent } from '../../server/notify/channels/render-content.ts';
import { isHour12 } from '../../shared/hour-cycle.ts';
import { formatQuantity, plainReader } from '../../shared/messages/format.ts';
import { message } from '../../shared/messages/message.ts';
import { clockTime, nearTime } from '../../web/src/ui/format/local-time.ts';

test.each([
  ['en-US', true],
  ['en-GB', false],
  ['de-DE', false],
  ['ko-KR', true],
  ['ja-JP', false],
  ['es-MX', true],
  ['pt-BR', false],
  ['th-TH', false],
])('isHour12() in %s: %j', (locale, is) => expect(isHour12(locale)).toBe(is));

describe('a time of day', () => {
  const nowMs = Date.UTC(2031, 4, 2, 12);
  for (const hour12 of [true, false]) {
    const page = { timeZone: 'Europe/Lisbon', hour12 };
    const sentence = { ...plainReader(nowMs), timeZone: 'Europe/Lisbon', hour12 };
    // Around midnight and noon the two ways of counting differ most.
    for (const hoursAgo of [0, 1, 11.5, 12, 12.99, 36])
      test(`of ${hoursAgo} h ago, ${hour12 ? 'with am and pm' : 'in 24 hours'}, reads the same on pages and in sentences`, () => {
        const atMs = nowMs - hoursAgo * 3_600_000;
        expect(formatQuantity('raisedAtMs', atMs, sentence)).toBe(nearTime(atMs, nowMs, page));
      });
    test(`is ${hour12 ? '1:00 pm' : '13:00'} where it is read so`, () =>
      expect(clockTime(nowMs, page)).toBe(hour12 ? '1:00 pm' : '13:00'));
  }

  test('in a message is as its person reads hours', () => {
    const content = {
      title: { name: 'Shed', what: message('notice.due-by', { dueAtMs: nowMs }) },
      sentence: message('notice.due-by', { dueAtMs: nowMs }),
      parts: [],
    };
    const sentence = (hour12: boolean) =>
      renderContent(content, { timeZone: 'UTC', unit: 'C', language: 'en', hour12 }, nowMs).sentence;
    expect([sentence(true), sentence(false)].map((text) => /\d+:\d+( pm)?/.exec(text)?.[0])).toEqual([
      '12:00 pm',
      '12:00',
    ]);
  });
});
