/**
 * The live line: events out of a broken-up stream, the state they change, and the clock of a server in fast time.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { pileSummarySchema } from '../../shared/contracts/piles.ts';
import { newWarnings, withPile, withProbe } from '../../web/src/data/live/installation.ts';
import { retellEveryMs, serverNowMs } from '../../web/src/data/live/server-clock.ts';
import { startSseParser } from '../../web/src/data/live/sse-parser.ts';
import { mockFarm } from '../helpers/mock-farm.ts';

describe('startSseParser()', () => {
  const text =
    ': a comment\nretry: 2000\n\nevent: hello\ndata: {"a":1}\n\nevent:beat\r\ndata:one\r\ndata: two\r\n\r\ndata: no name\rid: 7\r\rx\n';
  const events = [
    { event: 'hello', data: '{"a":1}' },
    { event: 'beat', data: 'one\ntwo' },
    { event: 'message', data: 'no name' },
  ];

  test('reads names, several data lines and all three line ends', () => {
    expect(startSseParser()(text)).toEqual(events);
  });
  test('gives the same events however the stream is cut', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 1, max: text.length - 1 }), { maxLength: 12 }), (cuts) => {
        const parse = startSseParser();
        const edges = [0, ...cuts.sort((one, other) => one - other), text.length];
        const heard = edges.slice(1).flatMap((edge, i) => parse(text.slice(edges[i], edge)));
        expect(heard).toEqual(events);
      }),
      { seed: 11 },
    );
  });
  test('an event that was not finished is not given', () => {
    expect(startSseParser()('event: pile\ndata: {}\n')).toEqual([]);
  });
});

describe('the installation as the page knows it', () => {
  const piles = mockFarm(0).piles.map((pile) => pileSummarySchema.parse(pile));
  const [first, second] = piles as [(typeof piles)[number], (typeof piles)[number]];

  test('a pile seen anew takes its place, a new one joins at the end', () => {
    const changed = { ...first, condition: 'It is resting.' };
    expect(withPile(piles, changed)[0]).toBe(changed);
    expect(withPile(piles, { ...first, id: 'new' }).map((pile) => pile.id)).toEqual([
      ...piles.map((pile) => pile.id),
      'new',
    ]);
  });
  test('probes of one name at two sites are two', () => {
    const [probe] = mockFarm(0).probes;
    if (!probe) throw new Error('the farm has probes');
    expect(withProbe([probe], { ...probe, site: 'elsewhere' })).toHaveLength(2);
    expect(withProbe([probe], { ...probe, online: false })).toEqual([{ ...probe, online: false }]);
  });

  const raised = { ...second, alarms: first.alarms.slice(0, 1).map((alarm) => ({ ...alarm, id: 'fresh' })) };
  test('a new unacknowledged warning is said', () => {
    expect(newWarnings(piles, [raised])).toEqual([
      `New warning at ${second.name}: Overheating, core. Turn it or spread it thinner.`,
    ]);
  });
  test('nothing is said of what stood when the page opened, nor twice', () => {
    expect(newWarnings(null, [raised])).toEqual([]);
    expect(newWarnings([raised], [raised])).toEqual([]);
  });
  test('nothing is said of what another warning explains, or what is acknowledged', () => {
    const [alarm] = raised.alarms;
    if (!alarm) throw new Error('one alarm stands');
    expect(newWarnings(piles, [{ ...raised, alarms: [{ ...alarm, suppressedBy: 'a1' }] }])).toEqual([]);
    expect(newWarnings(piles, [{ ...raised, alarms: [{ ...alarm, state: 'acknowledged' }] }])).toEqual([]);
  });
});

describe('serverNowMs()', () => {
  test('goes on at the speed of the server', () => {
    expect(serverNowMs({ serverMs: 1_000_000, steadyMs: 500, speed: 600 }, 1_500)).toBe(1_600_000);
    expect(serverNowMs({ serverMs: 1_000_000, steadyMs: 500, speed: 1 }, 1_500)).toBe(1_001_000);
  });
  test('words of age are retold oftener when time runs fast', () => {
    const at = (speed: number) => retellEveryMs({ serverMs: 0, steadyMs: 0, speed });
    expect(at(600)).toBeLessThan(at(1));
  });
});
