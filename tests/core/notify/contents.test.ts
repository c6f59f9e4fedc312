import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type AlarmMessageParts,
  alarmMessage as alarmNotice,
  type NoticeSources,
} from '../../../core/notify/alarm-content.ts';
import * as others from '../../../core/notify/other-contents.ts';
import { type MessageReader, renderContent, shortTitle } from '../../../server/notify/channels/render-content.ts';
import { message, verbatim } from '../../../shared/messages/message.ts';
import { positions } from '../../../shared/names.ts';
import { noticeReasons } from '../../../shared/notifications.ts';
import { severities, warningKinds } from '../../../shared/warning.ts';

const nowMs = Date.UTC(2031, 5, 1, 14);
const reader = { timeZone: 'Europe/Lisbon', unit: 'C' as const, language: 'en' };
const facts: NoticeSources = {
  kind: 'overheating',
  position: null,
  severity: 'warning',
  seen: message('warnings.overheating.seen.above', {
    hottestPart: message('warnings.value.now', { isFirst: true, position: 'core', tempC: 53 }),
    limitC: 50,
  }),
  todo: verbatim('Turn it or spread it thinner.'),
  byMs: nowMs + 2 * 3_600_000,
  caution: verbatim('Wear a dust mask.'),
  raisedAtMs: nowMs - 15 * 60_000,
};
const ask = { answer: 'first-raise' as const, facts, pileName: 'Shed', siteName: 'Saltmere Yard', nowMs };

const alarmMessage = (asked: AlarmMessageParts, to: MessageReader = reader) =>
  renderContent(alarmNotice(asked), to, nowMs);
const siteMessage = (asked: others.SiteMessageParts) => renderContent(others.siteMessage(asked), reader, nowMs);
const summaryMessage = (piles: readonly others.SummaryPile[]) =>
  renderContent(others.summaryMessage(piles), reader, nowMs);
const systemMessage = (facts: others.SystemFacts, over: boolean) =>
  renderContent(others.systemMessage(facts, over), reader, nowMs);

describe('alarmContent()', () => {
  test('begins with the sentence: which pile, what, what to do, by when', () => {
    expect(alarmMessage(ask)).toEqual({
      title: 'Shed: too hot',
      sentence: 'Shed at Saltmere Yard is too hot. Turn it or spread it thinner. Do it by 17:00.',
      parts: [
        { label: 'Seen', text: 'The core is at 53 °C, above the 50 °C at which to act.' },
        { label: 'Caution', text: 'Wear a dust mask.' },
      ],
    });
  });

  test('says who noted what a person noted, and when, and stays silent of it once that is over', () => {
    const noted = { atMs: nowMs - 26 * 3_600_000, by: 'Ana' };
    const smelt = { ...facts, kind: 'bad-smell' as const, seen: verbatim('It smelt rotten.'), noted };
    const { title: heading, sentence, parts } = alarmMessage({ ...ask, facts: smelt });
    expect(heading).toBe('Shed: smells bad');
    expect(sentence).toMatch(/^Shed at Saltmere Yard smells bad\. /);
    expect(parts.slice(0, 2)).toEqual([
      { label: 'Seen', text: 'It smelt rotten.' },
      { label: 'Noted', text: 'by Ana, Sat 31 May, 13:00' },
    ]);
    const nameless = alarmMessage({ ...ask, facts: { ...smelt, noted: { ...noted, by: null } } });
    expect(nameless.parts[1]?.text).toBe('Sat 31 May, 13:00');
    expect(alarmMessage({ ...ask, answer: 'cleared', facts: smelt }).parts).toEqual([]);
  });

  const openings: [(typeof noticeReasons)[number], string, string][] = [
    ['got-worse', 'Shed: worse, too hot', 'It has got worse: Shed at Saltmere Yard is too hot.'],
    [
      'reminder-due',
      'Shed: still too hot',
      'Still, since 14:45: Shed at Saltmere Yard is too hot, and nobody has acknowledged it.',
    ],
    [
      'handed-on',
      'Shed: too hot',
      'Shed at Saltmere Yard is too hot. It comes to you because nobody has acknowledged it for 15 minutes.',
    ],
    [
      'not-reached',
      'Shed: too hot',
      'Shed at Saltmere Yard is too hot. It comes to you because Bram could not be reached.',
    ],
    ['cleared', 'Shed: no longer too hot', 'Shed at Saltmere Yard is no longer too hot.'],
  ];
  for (const [answer, heading, opening] of openings) {
    test(`of ${answer} says so`, () => {
      const content = alarmMessage({ ...ask, answer, notReached: 'Bram' });
      expect(content.title).toBe(heading);
      expect(content.sentence.startsWith(opening)).toBe(true);
    });
  }

  test('tells temperatures in the unit of its reader', () => {
    const { parts } = alarmMessage(ask, { ...reader, unit: 'F' });
    expect(parts[0]?.text).toBe('The core is at 127.4 °F, above the 122 °F at which to act.');
  });

  test('says to act now when the time has come', () => {
    expect(alarmMessage({ ...ask, facts: { ...facts, byMs: nowMs } }).sentence).toMatch(/Do it now\.$/);
    const late = { ...facts, byMs: nowMs - 2 * 3_600_000 };
    expect(alarmMessage({ ...ask, facts: late }).sentence).toMatch(/ This was due 2 hours ago: do it now\.$/);
  });

  const anyAlarm = fc.record({
    answer: fc.constantFrom(...noticeReasons),
    kind: fc.constantFrom(...warningKinds),
    position: fc.option(fc.constantFrom(...positions)),
    severity: fc.constantFrom(...severities),
    pileName: fc.string({ minLength: 1, maxLength: 80 }),
  });
  test('always fits a lock screen, names the pile, and calls the fire service where something may burn', () => {
    fc.assert(
      fc.property(anyAlarm, ({ answer, kind, position, severity, pileName }) => {
        const content = alarmMessage({ ...ask, answer, pileName, facts: { ...facts, kind, position, severity } });
        expect(content.title.length).toBeLessThanOrEqual(60);
        expect(content.sentence).toContain(pileName.replace(/\u00a0/g, ' '));
        const all = JSON.stringify(content);
        expect(all.includes('local fire service')).toBe(kind === 'self-heating');
        expect(all).not.toMatch(/\b(sanitised|is safe)\b/);
      }),
    );
  });
});

test('shortTitle() keeps what is wrong and shortens the name', () => {
  expect(shortTitle('A very long name of a pile that nobody would ever give to one', 'heating dangerously')).toBe(
    'A very long name of a pile that nobody…: heating dangerously',
  );
});

test('siteMessage() says it once for all probes, and what to do', () => {
  const silent = { sinceMs: nowMs - 3_600_000, probeCount: 5, pileNames: ['Shed', 'Barn'] };
  expect(siteMessage({ answer: 'first-raise', facts: silent, siteName: 'Saltmere Yard', nowMs }).sentence).toBe(
    'Saltmere Yard has fallen silent: none of its 5 probes has spoken since 14:00. Measure the piles with a long-stem thermometer now, then look at the site’s power, radio or network.',
  );
  expect(siteMessage({ answer: 'cleared', facts: silent, siteName: 'Saltmere Yard', nowMs }).sentence).toBe(
    'Saltmere Yard speaks again after 60 minutes of silence.',
  );
});

test('summaryMessage() begins with what needs a person', () => {
  const pile = (name: string, warnings: number) => ({
    name,
    siteName: 'Saltmere Yard',
    condition: verbatim('It is working well: the core is at 41 °C.'),
    next: verbatim('Leave it working.'),
    warnings,
  });
  const content = summaryMessage([pile('Shed', 0), pile('Barn', 1)]);
  expect(content.sentence).toBe('2 piles watched; a warning stands at Barn.');
  expect(content.parts.map(({ label }) => label)).toEqual(['Barn at Saltmere Yard', 'Shed at Saltmere Yard']);
  expect(summaryMessage([pile('Shed', 0)]).sentence).toBe('1 pile watched, and no warning stands.');
  expect(summaryMessage([]).sentence).toBe('No pile is laid just now.');
});

test('systemMessage() says what is the matter and what to do, and when it is over', () => {
  const disk = {
    said: verbatim('The disk is nearly full.'),
    todo: verbatim('Make room.'),
    short: verbatim('disk nearly full'),
  };
  expect(systemMessage(disk, false)).toMatchObject({
    title: 'Branhearth: disk nearly full',
    sentence: 'The disk is nearly full. Make room.',
  });
  expect(systemMessage(disk, true).sentence).toBe('This is over: The disk is nearly full.');
});
