// MQTT 5 section 4.7; the rows marked * are the examples of sections 4.7.1.2, 4.7.1.3 and 4.7.2, recalled.
import { expect, test } from 'vitest';
import { filterProblem, matchFilter, wildcardCount } from '../../ingest/mapping/topic-filter.ts';

const rows: [filter: string, topic: string, captured: string[] | undefined][] = [
  ['a/b/c', 'a/b/c', []],
  ['a/b/c', 'a/b', undefined],
  ['a/b', 'a/b/c', undefined],
  ['a/b', 'A/b', undefined],
  ['sport/tennis/player1/#', 'sport/tennis/player1', ['']], // *
  ['sport/tennis/player1/#', 'sport/tennis/player1/ranking', ['ranking']], // *
  ['sport/tennis/player1/#', 'sport/tennis/player1/score/wimbledon', ['score/wimbledon']], // *
  ['sport/#', 'sport', ['']], // *
  ['#', 'a', ['a']],
  ['#', '/a//', ['/a//']],
  ['sport/tennis/+', 'sport/tennis/player1', ['player1']], // *
  ['sport/tennis/+', 'sport/tennis/player1/ranking', undefined], // *
  ['sport/+', 'sport', undefined], // *
  ['sport/+', 'sport/', ['']], // *
  ['+/+', '/finance', ['', 'finance']], // *
  ['/+', '/finance', ['finance']], // *
  ['+', '/finance', undefined], // *
  ['#', '$SYS/broker', undefined], // *
  ['+/monitor/Clients', '$SYS/monitor/Clients', undefined], // *
  ['$SYS/#', '$SYS/broker/load', ['broker/load']], // *
  ['$SYS/monitor/+', '$SYS/monitor/Clients', ['Clients']], // *
  ['+/probe/+/#', 'yard/probe/7/temp/core', ['yard', '7', 'temp/core']],
];
for (const [filter, topic, captured] of rows) {
  test(`matchFilter() of ${filter} and ${topic}: ${captured === undefined ? 'no match' : JSON.stringify(captured)}`, () => {
    expect(matchFilter(filter, topic)).toEqual(captured);
  });
}

test('filterProblem() finds nothing wrong with filters as the standard has them', () => {
  for (const [filter] of rows) expect(filterProblem(filter)).toBeUndefined();
});

for (const filter of [
  '',
  'sport/tennis#',
  'sport/tennis/#/ranking',
  'sport+',
  'sport+/player1',
  'a\u0000b',
  '$share/group/a/#',
  'a'.repeat(65_536),
]) {
  test(`filterProblem() names what is wrong with ${JSON.stringify(filter.slice(0, 30))}`, () => {
    expect(filterProblem(filter)?.code).toMatch(/^field\.filter\./);
  });
}

test('wildcardCount() counts + and #', () => {
  expect(wildcardCount('+/a/+/#')).toBe(3);
});
