import { describe, expect, test } from 'vitest';
import { type HandState, handSigns, visitMs } from '../../../core/by-hand/hand-signs.ts';
import { gravityOf, type NoteSign, signOf } from '../../../core/by-hand/note-sign.ts';
import type { Noted, NotedFacts } from '../../../core/profiles/noted.ts';
import { clockAheadMs } from '../../../shared/clock-ahead.ts';
import type { Act, ActKind } from '../../../shared/contracts/domain/batch.ts';
import { stageLimits } from '../../../shared/stage.ts';
import { msPerHour, msPerMinute } from '../../../shared/units.ts';
import type { HandKind, Severity } from '../../../shared/warning.ts';

const limits = stageLimits.bran; // 50 to 65 %
const crumbles = { kind: 'squeeze', feel: 'crumbles' } as const;
const holds = { kind: 'squeeze', feel: 'holds' } as const;
const pours = { kind: 'squeeze', feel: 'pours' } as const;
const black = { kind: 'growth', colour: 'black' } as const;
const white = { kind: 'growth', colour: 'white' } as const;

const weighed = (wetG: number, dryG?: number): NotedFacts => ({ kind: 'sample', wetG, dryG });
const smell = (...smells: Extract<NotedFacts, { kind: 'smell' }>['smells']): NotedFacts => ({ kind: 'smell', smells });
const rotten = smell('rotten');
const earthy = smell('earthy');
const word = (smelt: 'good' | 'doubtful' | 'bad', look: 'good' | 'doubtful' | 'bad'): NotedFacts => ({
  kind: 'readiness',
  smell: smelt,
  look,
  ready: false,
});

describe('signOf()', () => {
  const rows: [HandKind, string, NotedFacts, NoteSign][] = [
    ['hand-dry', 'a handful that crumbles', crumbles, 'bad'],
    ['hand-dry', 'a handful that holds', holds, 'good'],
    ['hand-dry', 'a handful that pours', pours, 'good'],
    ['hand-dry', 'a smell', rotten, null],
    // The band less the two points by which samples differ from place to place: 48 %.
    ['hand-dry', 'a sample of 47.9 %', weighed(1000, 521), 'bad'],
    ['hand-dry', 'a sample of 48.1 %', weighed(1000, 519), 'good'],
    ['hand-dry', 'a sample that was never dried', weighed(1000), null],
    ['hand-wet', 'a handful that pours', pours, 'bad'],
    ['hand-wet', 'a handful that drips', { kind: 'squeeze', feel: 'drips' }, 'good'],
    ['hand-wet', 'a handful that crumbles', crumbles, 'good'],
    ['hand-wet', 'a sample of 66.9 %', weighed(1000, 331), 'good'],
    ['hand-wet', 'a sample of 67.1 %', weighed(1000, 329), 'bad'],
    ['bad-smell', 'rot', rotten, 'bad'],
    ['bad-smell', 'ammonia beside earth', smell('earthy', 'ammonia'), 'bad'],
    ['bad-smell', 'sourness', smell('sour'), 'bad'],
    ['bad-smell', 'earth and mushrooms', smell('earthy', 'mushroom'), 'good'],
    ['bad-smell', 'next to nothing', smell('faint'), 'good'],
    ['bad-smell', 'must', smell('musty'), null],
    ['bad-smell', 'must beside earth', smell('musty', 'earthy'), null],
    ['bad-smell', 'a smell judged bad', word('bad', 'good'), 'bad'],
    ['bad-smell', 'a smell judged doubtful', word('doubtful', 'good'), null],
    ['bad-smell', 'a smell judged good', word('good', 'bad'), 'good'],
    ['wrong-growth', 'black', black, 'bad'],
    ['wrong-growth', 'green', { kind: 'growth', colour: 'green' }, 'bad'],
    ['wrong-growth', 'orange', { kind: 'growth', colour: 'other', otherColour: 'orange' }, 'bad'],
    ['wrong-growth', 'white', white, 'good'],
    ['wrong-growth', 'a look judged bad', word('good', 'bad'), 'bad'],
    ['wrong-growth', 'a look judged doubtful', word('good', 'doubtful'), null],
    ['wrong-growth', 'a handful', holds, null],
  ];
  for (const [kind, what, note, says] of rows) {
    test(`signOf() of ${what} for ${kind}: ${says ?? 'nothing'}`, () => {
      expect(signOf(kind, note, limits)).toBe(says);
    });
  }
});

test.each<[string, NotedFacts, Severity]>([
  ['rot', rotten, 'urgent'],
  ['ammonia', smell('ammonia'), 'urgent'],
  ['sourness', smell('sour'), 'warning'],
  ['a few black patches', { ...black, amount: 'few' }, 'warning'],
  ['many black patches', { ...black, amount: 'many' }, 'urgent'],
  ['black at the edge', { ...black, place: 'edge' }, 'warning'],
  ['black all through', { ...black, place: 'all-through' }, 'urgent'],
  ['a handful that crumbles', crumbles, 'warning'],
])('gravityOf() %s: %s', (_what, note, severity) => {
  expect(gravityOf(note)).toBe(severity);
});

type Happening = readonly [min: number, NotedFacts | ActKind];

/** Minutes from the first note; looked at after all of it. */
function stateOf(kind: HandKind, happenings: readonly Happening[], atMin = 10_000): HandState {
  const noted: Noted[] = [];
  const acts: Act[] = [];
  for (const [min, what] of happenings) {
    const atMs = min * msPerMinute;
    if (typeof what === 'string') acts.push({ kind: what, atMs });
    else noted.push({ atMs, by: null, what });
  }
  return handSigns({ noted, acts, limits }, atMin * msPerMinute).find((sign) => sign.kind === kind)?.state ?? 'unsaid';
}

const visitMin = visitMs / msPerMinute;

describe('a bad sign noted by hand', () => {
  const rows: [HandKind, string, Happening[], HandState][] = [
    ['hand-dry', 'nothing noted', [], 'unsaid'],
    ['hand-dry', 'only watered', [[0, 'watered']], 'unsaid'],
    ['hand-dry', 'noted good', [[0, holds]], 'good'],
    ['hand-dry', 'noted bad', [[0, crumbles]], 'bad'],
    [
      'hand-dry',
      'good, then bad',
      [
        [0, holds],
        [1, crumbles],
      ],
      'bad',
    ],
    [
      'hand-dry',
      'bad, then good',
      [
        [0, crumbles],
        [1, holds],
      ],
      'good',
    ],
    [
      'hand-dry',
      'bad, then a smell',
      [
        [0, crumbles],
        [1, earthy],
      ],
      'bad',
    ],
    [
      'hand-dry',
      'watered a minute before',
      [
        [0, 'watered'],
        [1, crumbles],
      ],
      'bad',
    ],
    [
      'hand-dry',
      'watered in the same minute',
      [
        [0, crumbles],
        [0, 'watered'],
      ],
      'answered',
    ],
    [
      'hand-dry',
      'watered a minute after',
      [
        [0, crumbles],
        [1, 'watered'],
      ],
      'answered',
    ],
    [
      'hand-dry',
      'turned after',
      [
        [0, crumbles],
        [1, 'turned'],
      ],
      'bad',
    ],
    [
      'hand-dry',
      'rained on after',
      [
        [0, crumbles],
        [1, 'rained'],
      ],
      'bad',
    ],
    [
      'hand-dry',
      'watered, and still crumbling',
      [
        [0, crumbles],
        [1, 'watered'],
        [20, crumbles],
      ],
      'bad',
    ],
    [
      'hand-dry',
      'watered, then good',
      [
        [0, crumbles],
        [1, 'watered'],
        [20, holds],
      ],
      'good',
    ],
    [
      'hand-dry',
      'watered twice',
      [
        [0, crumbles],
        [1, 'watered'],
        [2, 'watered'],
      ],
      'answered',
    ],
    [
      'hand-dry',
      'far too wet since',
      [
        [0, crumbles],
        [1, pours],
      ],
      'good',
    ],
    [
      'hand-wet',
      'turned after',
      [
        [0, pours],
        [1, 'turned'],
      ],
      'answered',
    ],
    [
      'hand-wet',
      'spread after',
      [
        [0, pours],
        [1, 'spread'],
      ],
      'answered',
    ],
    [
      'hand-wet',
      'uncovered after',
      [
        [0, pours],
        [1, 'uncovered'],
      ],
      'answered',
    ],
    [
      'hand-wet',
      'watered after',
      [
        [0, pours],
        [1, 'watered'],
      ],
      'bad',
    ],
    [
      'bad-smell',
      'turned after',
      [
        [0, rotten],
        [1, 'turned'],
      ],
      'answered',
    ],
    [
      'bad-smell',
      'watered after',
      [
        [0, rotten],
        [1, 'watered'],
      ],
      'bad',
    ],
    [
      'bad-smell',
      'good a minute later',
      [
        [0, rotten],
        [1, earthy],
      ],
      'good',
    ],
    [
      'bad-smell',
      'only doubtful later',
      [
        [0, rotten],
        [1, smell('musty')],
      ],
      'bad',
    ],
    [
      'wrong-growth',
      'turned after',
      [
        [0, black],
        [1, 'turned'],
      ],
      'bad',
    ],
    [
      'wrong-growth',
      'white beside it within the visit',
      [
        [0, black],
        [visitMin - 1, white],
      ],
      'bad',
    ],
    [
      'wrong-growth',
      'white beside it, noted first',
      [
        [0, white],
        [1, black],
      ],
      'bad',
    ],
    [
      'wrong-growth',
      'white at the next visit',
      [
        [0, black],
        [visitMin, white],
      ],
      'good',
    ],
    [
      'wrong-growth',
      'its look judged good within the visit',
      [
        [0, black],
        [1, word('good', 'good')],
      ],
      'good',
    ],
  ];
  for (const [kind, what, happenings, state] of rows) {
    test(`${kind}, ${what}: ${state}`, () => expect(stateOf(kind, happenings)).toBe(state));
  }

  test('stands from its own time on, but for a clock that is a little ahead', () => {
    const happenings: Happening[] = [[60, crumbles]];
    const aheadMin = clockAheadMs / msPerMinute;
    expect(stateOf('hand-dry', happenings, 60 - aheadMin - 1)).toBe('unsaid');
    expect(stateOf('hand-dry', happenings, 60 - aheadMin)).toBe('bad');
    expect(stateOf('hand-dry', happenings, 60)).toBe('bad');
  });

  test('is the graver of two within one visit, and the newer of two visits', () => {
    const said = (betweenMs: number) =>
      handSigns(
        {
          noted: [
            { atMs: 0, by: null, what: { ...black, place: 'all-through' } },
            { atMs: betweenMs, by: null, what: { kind: 'growth', colour: 'green', amount: 'few' } },
          ],
          acts: [],
          limits,
        },
        48 * msPerHour,
      ).find(({ kind }) => kind === 'wrong-growth')?.note?.what;
    expect(said(visitMs - 1)).toMatchObject({ colour: 'black' });
    expect(said(visitMs)).toMatchObject({ colour: 'green' });
  });
});
