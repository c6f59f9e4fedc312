import { expect, test } from 'vitest';
import { partOf } from '../../core/seasons/groups.ts';
import type { AgedCurve, ComparedBatch } from '../../shared/contracts/seasons.ts';
import { formatQuantity, metric, plainReader } from '../../shared/messages/format.ts';
import { pageSeasonsTexts } from '../../shared/messages/made/en/page-seasons.ts';
import type { Message } from '../../shared/messages/message.ts';
import { plainEnglish } from '../../shared/messages/render.ts';
import { pageWords } from '../../web/src/data/live/page-texts.ts';
import { addressOf, choiceQuery, readComparison } from '../../web/src/features/seasons/address.ts';
import { amountOf, cellOf, headingOf } from '../../web/src/features/seasons/measure-words.ts';
import { groupsBy } from '../../web/src/features/seasons/named-groups.ts';
import {
  dayMarks,
  frameOf,
  nearestTo,
  pathOf,
  type Size,
  tens,
  xOf,
  yOf,
} from '../../web/src/features/seasons/overlay-shape.ts';
import { foundIn, sorted } from '../../web/src/features/seasons/table-rows.ts';

test('readComparison() keeps what can be read and forgets the rest', () => {
  const { choice, view } = readComparison({
    stage: 'bran',
    season: 'monsoon',
    year: '2030',
    lineage: 'batch:x7',
    by: 'moon',
    sort: 'comfortH',
    find: 'white',
  });
  expect(choice).toEqual({ stage: 'bran', year: '2030', lineage: 'batch:x7' });
  expect(view).toMatchObject({ by: 'age', sort: 'comfortH', order: 'down', find: 'white' });
  expect(choiceQuery(choice)).toBe('stage=bran&year=2030&lineage=batch%3Ax7');
});

test('addressOf() leaves out what is usual and is read back as the same comparison', () => {
  const empty = readComparison({});
  expect(addressOf(empty)).toBe('/seasons');
  const one = readComparison({ site: 'saltmere-yard', by: 'warming', out: 'a,b', split: 'material', one: 'rice-bran' });
  const address = addressOf(one);
  expect(readComparison(Object.fromEntries(new URL(address, 'http://farm').searchParams))).toEqual(one);
});

const noBreak = '\u00a0';
const say = (said: Message) => plainEnglish(said);
const wordsIn = (temperature: 'C' | 'F') =>
  pageWords(pageSeasonsTexts, plainReader(0, { ...metric, temperature }), formatQuantity);
const [words, inFahrenheit] = [wordsIn('C'), wordsIn('F')];

test('measures are told in the unit of the reader, differences without the offset of 32', () => {
  expect(cellOf('peakC', 50, 'F')).toBe('122.0');
  expect(amountOf('peakC', 'F', words)(10)).toBe(`18.0${noBreak}°F`);
  expect(amountOf('moistureEndFrac', 'C', words)(0.052)).toBe(`5${noBreak}points`);
  expect(amountOf('comfortH', 'C', words)(-2.5)).toBe(`\u22122.5${noBreak}h`);
  expect(headingOf('above50H', inFahrenheit)).toBe(`Above 122${noBreak}°F`);
  expect(cellOf('turns', null, 'C')).toBe('–');
});

const curve = (id: string, coreC: (number | null)[], warmingAfterH: number | null = null): AgedCurve => ({
  id,
  coreC,
  airC: coreC.map(() => 15),
  warmingAfterH,
});
const size: Size = { width: 340, height: 120, left: 30, right: 10, top: 10, bottom: 10 };

test('frameOf() holds every curve out to whole days and tens; by warming it begins before the common zero', () => {
  const curves = [curve('a', new Array(30).fill(23), 5), curve('b', new Array(60).fill(47), 20)];
  expect(frameOf(curves, 'age', 'coreC')).toEqual({ fromH: 0, toH: 72, lowC: 20, highC: 50 });
  expect(frameOf(curves, 'warming', 'coreC')).toEqual({ fromH: -24, toH: 48, lowC: 20, highC: 50 });
  expect(frameOf([curve('none', [null, null])], 'age', 'coreC')).toBeUndefined();
});

test('pathOf() breaks where nothing was measured, and is empty for a batch that has no zero', () => {
  const frame = { fromH: 0, toH: 24, lowC: 20, highC: 40 };
  const path = pathOf(curve('a', [20, 30, null, 40]), 'age', 'coreC', frame, size);
  expect(path.match(/M/g)).toHaveLength(2);
  expect(path).toContain(`M${xOf(0, frame, size).toFixed(1)} ${yOf(20, frame, size).toFixed(1)}`);
  expect(pathOf(curve('a', [20, 30]), 'warming', 'coreC', frame, size)).toBe('');
});

test('nearestTo() names the curve at the pointer, and none far from all', () => {
  const frame = { fromH: 0, toH: 24, lowC: 20, highC: 40 };
  const curves = [curve('low', new Array(25).fill(22)), curve('high', new Array(25).fill(38))];
  const at = (tempC: number) => nearestTo(curves, 'age', frame, size, xOf(12, frame, size), yOf(tempC, frame, size));
  expect(at(37)).toEqual({ id: 'high', hour: 12, tempC: 38 });
  expect(at(23)?.id).toBe('low');
  expect(nearestTo(curves, 'age', frame, size, xOf(12, frame, size), 500)).toBeNull();
});

test('marks of the axes: every day where there is room, fewer where not; every ten degrees', () => {
  const frame = { fromH: 0, toH: 240, lowC: 10, highC: 40 };
  expect(dayMarks(frame, 900)).toEqual([0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10]);
  expect(dayMarks(frame, 200)).toEqual([0, 3, 6, 9]);
  expect(tens(frame)).toEqual([10, 20, 30, 40]);
});

const batch = (id: string, change: Partial<ComparedBatch> = {}, comfortH: number | null = null): ComparedBatch =>
  ({
    id,
    name: id,
    pileName: 'Bed',
    outcome: null,
    startedAt: '2031-04-01T00:00:00.000Z',
    site: 'saltmere-yard',
    siteName: 'Saltmere Yard',
    season: { id: '2031-spring', name: 'spring 2031' },
    year: 2031,
    material: 'wheat-bran',
    cover: 'breathable',
    stage: 'bran',
    starters: [],
    verdict: null,
    measures: { comfortH },
    ...change,
  }) as unknown as ComparedBatch;

test('sorted() puts unknown figures last whichever way it goes', () => {
  const rows = [batch('a', {}, 5), batch('b', {}, null), batch('c', {}, 9)];
  expect(sorted(rows, 'comfortH', 'down').map(({ id }) => id)).toEqual(['c', 'a', 'b']);
  expect(sorted(rows, 'comfortH', 'up').map(({ id }) => id)).toEqual(['a', 'c', 'b']);
});

test('foundIn() looks through names and outcomes, whatever the case', () => {
  const rows = [batch('a', { outcome: 'White all through' }), batch('White horse'), batch('c')];
  expect(foundIn(rows, ' white').map(({ id }) => id)).toEqual(['a', 'White horse']);
  expect(foundIn(rows, '')).toHaveLength(3);
});

test('groupsBy() counts a batch of two starters under both, the largest group first', () => {
  const oak = { id: 'oak', name: 'Oak' };
  const hazel = { id: 'hazel', name: 'Hazel' };
  const rows = [batch('a', { starters: [oak, hazel] }), batch('b', { starters: [oak] }), batch('c')];
  expect(groupsBy(rows, 'starter', say).map(({ id, batches }) => [id, batches.length])).toEqual([
    ['oak', 2],
    ['hazel', 1],
  ]);
  expect(partOf(rows[0] as ComparedBatch, 'season')).toEqual([{ id: '2031-spring', name: 'spring 2031' }]);
  expect(groupsBy(rows, 'material', say)[0]?.name).toBe('wheat bran');
});
