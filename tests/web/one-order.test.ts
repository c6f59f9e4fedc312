// At 82 °C page, mail and push said "keep air out of it", and below that "spread it out thin now and leave it open".

import { afterEach, describe, expect, test } from 'vitest';
import type { NoticeSources } from '../../core/notify/alarm-content.ts';
import { summaryMessage } from '../../core/notify/other-contents.ts';
import { alarmSummaries, alarmSummary } from '../../core/say/alarm-view.ts';
import { sayCondition } from '../../core/say/condition.ts';
import { measureView } from '../../core/say/measure-view.ts';
import { AlarmRegistry } from '../../core/session/alarm-registry.ts';
import type { Assessment } from '../../core/session/assessment.ts';
import type { Finding } from '../../core/warnings/finding.ts';
import { mailHtml, mailText } from '../../server/notify/channels/mail-body.ts';
import { pushPayload } from '../../server/notify/channels/push.ts';
import { renderContent } from '../../server/notify/channels/render-content.ts';
import { contentOf } from '../../server/notify/messages.ts';
import { Sirens } from '../../server/notify/sirens.ts';
import { alarmFacts } from '../../server/pile/alarm-notices.ts';
import { calledOffBy } from '../../server/services/records/calendar/calendar-batches.ts';
import { type CalendarBatch, dateCalendar } from '../../server/services/records/calendar/date-calendar.ts';
import { conditionOf } from '../../shared/conditions/kinds.ts';
import type { AlarmSummary } from '../../shared/contracts/piles.ts';
import { formatQuantity, plainReader } from '../../shared/messages/format.ts';
import { worded } from '../../shared/messages/in-words.ts';
import { pagePileTexts } from '../../shared/messages/made/en/page-pile.ts';
import { verbatim } from '../../shared/messages/message.ts';
import { plainEnglish } from '../../shared/messages/render.ts';
import { selfHeatingLadder } from '../../shared/stage.ts';
import type { AlarmRecord } from '../../shared/store/journal.ts';
import type { MessageRecord, NoticeRecord } from '../../shared/store/notifications-store.ts';
import { msPerDay, msPerHour } from '../../shared/units.ts';
import { type WarningKind, warningKinds } from '../../shared/warning.ts';
import { pageWords } from '../../web/src/data/live/page-texts.ts';
import { handWateringWords } from '../../web/src/features/pile/water-words.ts';
import { actCautions } from '../../web/src/ui/format/act-caution.ts';
import { inSentences, inWords, startMs } from '../core/helpers.ts';
import { findingGallery, heatedTo } from '../helpers/finding-gallery.ts';
import { until } from '../helpers/until.ts';

/** Orders by what they do to the pile, told apart from what is only forbidden, or asked under a condition. */
const doing = {
  opens:
    /\b(turn it|spread it|leave it open|open it|take the cover off|leave the cover off|have the fork|take it out|squeeze|push it back)\b/i,
  closes: /\b(keep air out|before touching|leave it to the fire service|keep people away|leave it closed)\b/i,
  covers: /\b(leave it covered|heap it deeper|cover it|and cover\b|put mats)/i,
  uncovers: /\b(leave it open|take the cover off|leave the cover off|spread it)/i,
  waters: /\b(sprinkle|water it\b)/i,
  dries: /\b(mix in dry|keep rain off)/i,
} as const;
type Doing = keyof typeof doing;
const excluding: readonly [Doing, Doing][] = [
  ['opens', 'closes'],
  ['waters', 'closes'],
  ['covers', 'uncovers'],
  ['waters', 'dries'],
];

const unconditional = (text: string) =>
  text.replace(/\b(if|once|should|where it|dry:|neither:|sour and)\b[^.;]*[.;]?/gi, '');

/** Pairs of orders in these texts that nobody can follow both. */
function exclusions(texts: readonly string[]): string[] {
  const orders = texts.map(unconditional);
  const does = (what: Doing) => orders.filter((text) => doing[what].test(text));
  return excluding.flatMap(([one, other]) =>
    does(one).length > 0 && does(other).length > 0 ? [`${one}: ${does(one)[0]} / ${other}: ${does(other)[0]}`] : [],
  );
}

const gallery = findingGallery();
const rungs = selfHeatingLadder.map((rung, i) => {
  const all = heatedTo(i);
  if (all.last === null) throw new Error('never looked at');
  const finding = all.finding('self-heating');
  return { ...rung, todo: plainEnglish(finding.todo).replace(/\.$/, ''), assessment: all.last, finding };
});
const nowMs = startMs + 5 * msPerHour;

/** Alarms of one pile that all stand, as the watch keeps them. */
function standing(findings: readonly Finding[]): AlarmRecord[] {
  let last = 0;
  const registry = new AlarmRegistry('shed', [], () => `a${++last}`);
  const clear = findings.map((finding) => ({ ...finding, explainedBy: null, nearness: 'clear' as const }));
  for (const atMs of [nowMs - msPerDay, nowMs]) registry.evaluate(clear, atMs);
  return [...registry.open()].map(({ record }) => record);
}

const summaries = (records: readonly AlarmRecord[]) =>
  worded(records.map((record) => alarmSummary({ record, suppressedBy: null }, records)));

const said = (assessment: Assessment, alarms: readonly AlarmSummary[]) =>
  inSentences(
    sayCondition(
      assessment,
      alarms.map((alarm) => ({ ...alarm, todo: alarm.messages?.todo ?? verbatim(alarm.todo) })),
    ),
  );

const reader = { timeZone: 'UTC', unit: 'C' as const, language: 'en' };
const journalOf = (records: readonly AlarmRecord[]) => ({
  alarms: { open: async () => [...records] },
  piles: {
    get: async () => ({ id: 'shed', siteId: 'yard', name: 'Shed', createdAtMs: startMs }),
    list: async () => [{ id: 'shed', siteId: 'yard', name: 'Shed', createdAtMs: startMs }],
  },
  sites: { list: async () => [{ id: 'yard', name: 'Yard', timeZone: 'UTC' }] },
});
const clock = { nowMs: () => nowMs, speed: 1 };
const shedBatch: CalendarBatch = {
  batch: {
    id: 'b',
    pileId: 'shed',
    stage: 'bran',
    startedAtMs: startMs,
    endedAtMs: null,
    outcome: null,
    recipe: {},
    limits: {},
  },
  name: verbatim('Shed 1'),
  pileName: 'Shed',
  siteName: 'Yard',
};

/** Everything one person reads of one alarm by mail, push and webhook. */
async function messagesOf(record: AlarmRecord, records: readonly AlarmRecord[], facts: NoticeSources) {
  const notice: NoticeRecord = {
    id: 'n',
    key: 'k',
    about: 'alarm',
    answer: 'first-raise',
    rank: 1,
    siteId: 'yard',
    pileId: 'shed',
    alarmId: record.id,
    personId: null,
    atMs: nowMs,
    dueMs: nowMs,
    facts,
  };
  const parts = { journal: journalOf(records) as never, clock: clock as never, publicUrl: undefined };
  const content = await contentOf(parts, notice, 'Ana', reader);
  const job = { message: { id: 'm' } as MessageRecord, notice, content, reader, pageUrl: undefined, ack: undefined };
  return {
    content,
    bodies: [mailText(job), mailHtml(job, 'danger'), pushPayload(job).body, JSON.stringify(content)],
  };
}

test('the gallery holds a real finding of every kind, so that a new one is looked at here', () => {
  const shown = new Set<WarningKind>(gallery.map(({ kind }) => kind).concat('self-heating'));
  expect(warningKinds.filter((kind) => !shown.has(kind))).toEqual([]);
});

test('orders that exclude each other are recognised', () => {
  expect(
    exclusions(['Spread it out thin now and leave it open.', 'Call the fire service, and keep air out of it.']),
  ).toHaveLength(1);
  expect(exclusions(['Sprinkle 12 L of water, mix it in and cover.', 'Leave the cover off.'])).toHaveLength(1);
  expect(exclusions(['Measure it every two hours.', 'Look at the probe.'])).toEqual([]);
});

for (const { fromC, todo: rungTodo, mayOpen, assessment, finding: hazard } of rungs) {
  describe(`a pile at ${fromC} °C`, () => {
    for (const other of gallery.filter(({ kind }) => kind !== 'self-heating')) {
      const { seen, todo, caution } = inWords(other);
      test(`and ${other.kind} (${todo.slice(0, 30)}…): one order in the list, the sentence, every message`, async () => {
        const records = standing([hazard, other]);
        const alarms = summaries(records);
        const lesser = alarms.find(({ kind }) => kind === other.kind);
        const graver = alarms.find(({ kind }) => kind === 'self-heating');
        // Still shown as standing, with what was seen of it; the order is the graver's.
        expect(lesser).toMatchObject({ stands: true, seen, yieldsTo: graver?.id, by: graver?.by ?? null });
        expect(lesser?.todo).toContain('Follow the advice of “heating dangerously”');
        // As a sentence of its own.
        expect(lesser?.todo.toLowerCase()).toContain(rungTodo.toLowerCase());
        const { next, condition } = said(assessment, alarms);
        expect(condition).toContain('heating dangerously');
        expect(exclusions([next, ...alarms.map(({ todo }) => todo)])).toEqual([]);
        if (!mayOpen) expect(unconditional(next)).not.toMatch(doing.opens);

        const record = records.find(({ kind }) => kind === other.kind);
        if (!record) throw new Error('not raised');
        const { content, bodies } = await messagesOf(record, records, alarmFacts(record));
        expect(exclusions([content.sentence])).toEqual([]);
        expect(content.parts.map(({ label }) => label)).toContain('Fire');
        for (const body of bodies) {
          expect(body.toLowerCase()).toContain(rungTodo.toLowerCase());
          expect(body).not.toContain(todo);
          if (caution && !inWords(hazard).caution?.includes(caution)) expect(body).not.toContain(caution);
        }
        const told = {
          name: 'Shed',
          siteName: 'Yard',
          condition: verbatim(condition),
          next: verbatim(next),
          warnings: 2,
        };
        const summary = renderContent(summaryMessage([told]), reader, nowMs);
        expect(exclusions([summary.sentence, ...summary.parts.map(({ text }) => text)])).toEqual([]);
      });
    }

    test('and measured by hand: nobody is sent to it with a thermometer once the order is to stay away', () => {
      const records = standing([hazard]);
      const alarms = alarmSummaries(records.map((record) => ({ record, suppressedBy: null })));
      const says = verbatim('Measure the core again.');
      const due: Assessment = {
        ...assessment,
        measureNext: { position: 'core', atMs: nowMs, reason: 'over-limit', says },
      };
      expect(measureView(due, []).measureNext?.messages.says).toBe(says);
      expect(measureView(due, alarms).measureNext !== undefined).toBe(mayOpen);
    });

    test('and everything else at once: pages and practice, water, acts, calendar and sirens ask for one thing', async () => {
      const others = gallery.filter(({ kind }) => kind !== 'self-heating');
      const records = standing([hazard, ...others]);
      const shown = summaries(records);
      const watering = handWateringWords(shown, pageWords(pagePileTexts, plainReader(nowMs), formatQuantity)) ?? [];
      const cautions = mayOpen ? [] : actCautions('turned', fromC + 1).map((caution) => plainEnglish(caution));
      const calendar = dateCalendar(
        [{ ...shedBatch, calledOff: calledOffBy(records) }],
        'https://shed.example',
        plainReader(nowMs),
      ).replace(/\r\n /g, '');
      const sirens = await sirenTodos(records);
      expect(sirens).toHaveLength(records.length);
      expect(watering.join(' ')).toContain('no water');
      expect(calendar).not.toMatch(/Turn it|squeeze/i);
      expect(calendar).toContain('Not now\\, it heats dangerously: Shed');
      const orders = [
        ...shown.map(({ todo }) => todo),
        ...sirens,
        ...cautions,
        ...calendar.split('\r\n').filter((line) => line.startsWith('DESCRIPTION')),
      ];
      expect(exclusions(orders)).toEqual([]);
      for (const order of [...shown.map(({ todo }) => todo), ...sirens])
        expect(order.toLowerCase()).toContain(rungTodo.toLowerCase());
    });
  });
}

for (const finding of gallery.filter(({ kind }) => kind === 'wrong-growth')) {
  const { todo, seen } = inWords(finding);
  test(`wrong growth (${seen}): the calendar calls nobody to turn, squeeze or smell what would throw up its spores`, () => {
    const calendar = dateCalendar(
      [{ ...shedBatch, calledOff: calledOffBy(standing([finding])) }],
      'https://shed.example',
      plainReader(nowMs),
    ).replace(/\r\n /g, '');
    const ahead = calendar.split('BEGIN:VEVENT').filter((event) => event.includes('Not now'));
    expect(ahead.length).toBeGreaterThan(3);
    for (const event of ahead) {
      expect(event).not.toMatch(/Turn it|squeeze|smell it|Likely/i);
      expect(event).toContain('Not now\\, wrong growth in it: Shed');
      expect(event).toContain(todo.slice(0, 12));
    }
    expect(calendar.split('BEGIN:VEVENT').filter((event) => /Turn|Likely/.test(event))).toEqual([]);
  });
}

describe('any two warnings beside each other', () => {
  const pairs = gallery.flatMap((one, i) => gallery.slice(i + 1).map((other) => [one, other] as const));
  for (const [one, other] of pairs.filter(([{ kind }, other]) => kind !== other.kind)) {
    test(`${one.kind} and ${other.kind}: ${inWords(one).todo.slice(0, 25)}… / ${inWords(other).todo.slice(0, 25)}…`, () => {
      // A squeezed handful cannot be too dry and too wet, nor a balance say both.
      const wet: readonly WarningKind[] = ['hand-wet', 'waterlogged'];
      const dry: readonly WarningKind[] = ['hand-dry', 'drying'];
      if (wet.includes(one.kind) !== wet.includes(other.kind) && dry.includes(one.kind) !== dry.includes(other.kind))
        return;
      expect(exclusions(summaries(standing([one, other])).map(({ todo }) => todo))).toEqual([]);
    });
  }
});

test('any three warnings beside each other, at every step of the ladder and below it, ask for nothing that excludes another', () => {
  const wet: readonly WarningKind[] = ['hand-wet', 'waterlogged'];
  const dry: readonly WarningKind[] = ['hand-dry', 'drying'];
  const others = gallery.filter(({ kind }) => kind !== 'self-heating');
  const found: string[] = [];
  let looked = 0;
  for (const hazard of [undefined, ...rungs.map(({ finding }) => finding)]) {
    for (const [i, one] of others.entries()) {
      for (const [j, two] of others.slice(i + 1).entries()) {
        for (const three of others.slice(i + j + 2)) {
          const kinds = [one, two, three].map(({ kind }) => kind);
          if (new Set(kinds).size < 3) continue;
          if (kinds.some((kind) => wet.includes(kind)) && kinds.some((kind) => dry.includes(kind))) continue;
          looked += 1;
          const records = standing([...(hazard ? [hazard] : []), one, two, three]);
          const wrong = exclusions(summaries(records).map(({ todo }) => todo));
          if (wrong.length > 0) found.push(`${kinds.join(', ')}: ${wrong.join(' | ')}`);
        }
      }
    }
  }
  expect(looked).toBeGreaterThan(1000);
  expect(found.slice(0, 10)).toEqual([]);
});

test('a message that waited gives the order of now, not the one it was written with', async () => {
  const [at71, at79] = [rungs[1], rungs[2]];
  if (!at71 || !at79) throw new Error('no such rung');
  const written = standing([at71.finding])[0];
  const now = standing([at79.finding])[0];
  if (!written || !now) throw new Error('not raised');
  const { content } = await messagesOf(now, [now], alarmFacts(written));
  expect(content.sentence).toContain('keep air out of it');
  expect(content.sentence).not.toContain(inWords(at71.finding).todo);
});

test('a core that falls silent at 80 °C: the last order stands in the sentence as in the list', () => {
  const at79 = rungs[2];
  if (!at79) throw new Error('no such rung');
  const { assessment } = at79;
  const core = assessment.positions.core;
  if (core === null) throw new Error('no core');
  const findings = assessment.findings.filter(({ kind }) => kind !== 'self-heating');
  const silent = { ...assessment, findings, positions: { ...assessment.positions, core: { ...core, silent: true } } };
  const alarms = summaries(standing([at79.finding]));
  const { next, tone, condition } = said(silent, alarms);
  expect(condition).toContain('nobody knows how it is now');
  expect([next, tone]).toEqual([inWords(at79.finding).todo, 'danger']);
});

test('what a kind yields to is graver than it', () => {
  for (const kind of warningKinds)
    for (const graver of conditionOf(kind).yieldsTo)
      expect(warningKinds.indexOf(graver)).toBeLessThan(warningKinds.indexOf(kind));
});

const open: Sirens[] = [];
afterEach(() => Promise.all(open.splice(0).map((sirens) => sirens.close())));

async function sirenTodos(records: readonly AlarmRecord[]): Promise<string[]> {
  const kept = new Map<string, string>();
  const sirens = new Sirens({
    journal: journalOf(records) as never,
    clock: clock as never,
    log: console as never,
    root: 'piles',
    isSuppressed: () => false,
    keep: (topic, text) => kept.set(topic, text),
  });
  open.push(sirens);
  sirens.changed();
  const told = await until('the siren to be told', () => kept.get('piles/yard/alarm'));
  return (JSON.parse(told) as { alarms: { todo: string }[] }).alarms.map(({ todo }) => todo);
}
