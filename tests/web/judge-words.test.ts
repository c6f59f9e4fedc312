/**
 * What the judge says beyond its sentence, put into words: the day ahead, water, hands seen, readiness, why, limits.
 */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { conditions } from '../../shared/conditions/conditions.ts';
import { isConditionKind } from '../../shared/conditions/kinds.ts';
import type { Entry } from '../../shared/contracts/journal.ts';
import type { PileDetail } from '../../shared/contracts/piles.ts';
import { formatQuantity, metric, plainReader } from '../../shared/messages/format.ts';
import { conditionTexts } from '../../shared/messages/made/en/condition.ts';
import { meaningTexts } from '../../shared/messages/made/en/meaning.ts';
import { pagePileTexts } from '../../shared/messages/made/en/page-pile.ts';
import { stageLimitsSchema } from '../../shared/stage.ts';
import { msPerHour } from '../../shared/units.ts';
import { warningKinds } from '../../shared/warning.ts';
import { type BandAt, fanOf } from '../../web/src/charts/chart-data.ts';
import { strokeEvery } from '../../web/src/charts/chart-fan.ts';
import { fanWords } from '../../web/src/charts/fan-words.ts';
import { pageWords } from '../../web/src/data/live/page-texts.ts';
import { overWords } from '../../web/src/features/pile/ahead-words.ts';
import { keptLimit, limitChange, limitFields, shownLimit } from '../../web/src/features/pile/limit-fields.ts';
import { handKey, offeredHands, withDismissed } from '../../web/src/features/pile/offered-interventions.ts';
import { lastWordOf, wordSentence } from '../../web/src/features/pile/person-word.ts';
import { standSentence } from '../../web/src/features/pile/phase-words.ts';
import {
  handWateringWords,
  measurable,
  moistureBand,
  moistureStand,
  moistureWords,
  wateringWords,
} from '../../web/src/features/pile/water-words.ts';
import { actsLately, whyGroups } from '../../web/src/features/pile/why-facts.ts';
import { chancesInTen, likelihoodName } from '../../web/src/ui/format/likelihood.ts';
import { warningTitle } from '../../web/src/ui/format/words.ts';
import { mockFarm, mockSeries } from '../helpers/mock-farm.ts';
import { chartWords } from '../helpers/words-of-charts.ts';

const nowMs = Date.parse('2031-06-11T10:00:00Z');
const at = (hours: number) => new Date(nowMs + hours * msPerHour).toISOString();
const told = { nowMs, unit: 'C' as const, reader: { timeZone: 'UTC', hour12: false } };
const words = pageWords(pagePileTexts, plainReader(nowMs), formatQuantity);
const inF = pageWords(pagePileTexts, plainReader(nowMs, { ...metric, temperature: 'F' }), formatQuantity);
const plain = (text: string | undefined) => text?.replaceAll('\u00a0', ' ');
const farm = mockFarm(nowMs);
const pileOf = (id: string): PileDetail => {
  const pile = farm.piles.find((one) => one.id === id);
  if (!pile) throw new Error(`no pile ${id}`);
  return pile;
};

describe('handWateringWords()', () => {
  const [alarm] = farm.piles.flatMap(({ alarms }) => alarms);
  if (!alarm) throw new Error('no alarm on the farm');
  const rows: [string, Partial<typeof alarm>, RegExp | null][] = [
    ['too wet by hand', { kind: 'hand-wet' }, /^Give it no water/],
    ['too dry by hand', { kind: 'hand-dry' }, /^By hand it is too dry/],
    ['too dry by hand no more', { kind: 'hand-dry', stands: false, state: 'returned-unacknowledged' }, null],
    ['drying by the balance', { kind: 'drying' }, null],
  ];
  for (const [what, part, says] of rows)
    test(`of a pile ${what}${says ? '' : ': leaves it to the balance'}`, () => {
      const [first] = handWateringWords([{ ...alarm, stands: true, suppressedBy: null, ...part }], words) ?? [];
      if (says) expect(first).toMatch(says);
      else expect(first).toBeUndefined();
    });
});

describe('likelihoods by name', () => {
  const rows: [number, string][] = [
    [1, 'very-likely'],
    [0.9, 'very-likely'],
    [0.89, 'likely'],
    [0.66, 'likely'],
    [0.65, 'even'],
    [0.33, 'even'],
    [0.32, 'unlikely'],
    [0.1, 'unlikely'],
    [0.09, 'very-unlikely'],
    [0, 'very-unlikely'],
  ];
  for (const [likelihood, name] of rows)
    test(`${likelihood} is ${name}`, () => expect(likelihoodName(likelihood)).toBe(name));
  test('chances are counted in ten, and never ten or none', () => {
    expect([0, 0.04, 0.1, 0.78, 0.95, 0.99, 1].map(chancesInTen)).toEqual([1, 1, 1, 8, 9, 10, 10]);
  });
});

describe('overWords()', () => {
  const rows: [Parameters<typeof overWords>[0], number | null, string][] = [
    [{ likelihood: 0.78, at: at(3) }, 46, 'It reaches 50 °C in about 3 h (13:00), likely: 8 chances in 10.'],
    [
      { likelihood: 0.97, at: at(0.3) },
      49,
      'It reaches 50 °C within the hour, very likely: more than 9 chances in 10.',
    ],
    [
      { likelihood: 0.5, at: at(15) },
      46,
      'It may reach 50 °C in about 15 h (Thu 12 Jun, 01:00): about as likely as not.',
    ],
    [{ likelihood: 0.5, at: null }, 46, 'It may reach 50 °C within 12 hours: about as likely as not.'],
    [
      { likelihood: 0.2, at: at(9) },
      44,
      'It is unlikely to reach 50 °C in the next 12 hours; if it does, in about 9 h (19:00).',
    ],
    [{ likelihood: 0.2, at: null }, 44, 'It is unlikely to reach 50 °C in the next 12 hours.'],
    [{ likelihood: 0, at: null }, 30, 'It is very unlikely to reach 50 °C in the next 12 hours.'],
    [{ likelihood: 1, at: at(-2) }, 50.1, 'It stands above 50 °C now.'],
    [null, null, 'Whether it will reach 50 °C is not known yet.'],
  ];
  for (const [over, coreC, sentence] of rows)
    test(sentence, () => expect(plain(overWords(over, 50, coreC, told, words))).toBe(sentence));
  test('in °F the limit is told in °F', () => {
    expect(overWords(null, 50, null, told, inF)).toContain('122\u00a0°F');
  });
});

describe('the fan', () => {
  const point = (hours: number, midC: number): BandAt => ({
    atMs: nowMs + hours * msPerHour,
    lowC: midC - 3,
    midC,
    highC: midC + 3,
  });
  test('is told at 6, 12 and 24 hours', () => {
    const fan = Array.from({ length: 24 }, (_, i) => point(i + 0.5, 40 + i));
    expect(plain(fanWords(fan, told, chartWords))).toBe(
      'In 6 h the core is most likely at 45 °C (42 to 48 in eight of ten cases), in 12 h at 51 °C (48 to 54), in 24 h at 63 °C (60 to 66), if nobody touches it.',
    );
  });
  test('tells only what it reaches', () => {
    expect(plain(fanWords([point(6, 40)], told, chartWords))).toBe(
      'In 6 h the core is most likely at 40 °C (37 to 43 in eight of ten cases), if nobody touches it.',
    );
    expect(fanWords([point(1, 40)], told, chartWords)).toBeUndefined();
    expect(fanWords([], told, chartWords)).toBeUndefined();
  });
  test('belongs to a span that reaches up to now', () => {
    const series = mockSeries(pileOf('barn-bed'), nowMs - 24 * msPerHour, nowMs, 100);
    expect(fanOf(series)).toHaveLength(24);
    expect(fanOf({ ...series, to: at(-1) })).toHaveLength(24);
    expect(fanOf({ ...series, to: at(-2) })).toEqual([]);
    expect(fanOf({ ...series, to: at(23.5) })).toHaveLength(1);
    expect(fanOf({ ...series, forecast: null })).toEqual([]);
  });
  test('its strokes stay apart on any screen', () => {
    expect([40, 5.5, 5.4, 2.8, 1.4, 0.1].map(strokeEvery)).toEqual([1, 1, 2, 2, 4, 24]);
  });
});

describe('water in words', () => {
  const band = { minFrac: 0.5, maxFrac: 0.65 };
  test('the estimate is told with its doubt', () => {
    expect(plain(moistureWords({ frac: 0.46, sdFrac: 0.04 }, words))).toBe(
      'About 46 % water by weight, likely between 42 % and 50 %.',
    );
  });
  const rows: [number, number, RegExp][] = [
    [0.4, 0.05, /so it is too dry/],
    [0.46, 0.05, /likely too dry/],
    [0.52, 0.05, /may be getting dry/],
    [0.57, 0.05, /well within/],
    [0.62, 0.05, /on the wet side/],
    [0.67, 0.05, /likely too wet/],
    [0.75, 0.05, /so it is too wet/],
  ];
  for (const [frac, sdFrac, says] of rows)
    test(`${frac} ± ${sdFrac}: ${says.source}`, () =>
      expect(moistureStand({ frac, sdFrac }, band, words)).toMatch(says));
  test('the band is the batch’s own, or none', () => {
    expect(moistureBand(pileOf('wall-heap').limits)).toEqual({ minFrac: 0.4, maxFrac: 0.5 });
    expect(moistureBand({})).toBeUndefined();
  });

  test('water is told with half of it first', () => {
    const add = { litres: 4.3, litresPer10Kg: 0.5, fromFrac: 0.45, toFrac: 0.57 };
    const said = wateringWords(add, 0.45, band, words).map(plain);
    expect(said[0]).toBe('Add about 4 L and not more, which would bring it to 57 %.');
    expect(said[1]).toMatch(/^Half of it first: about 2 L\. .*Give the rest only if it still crumbles\.$/);
  });
  test('a bed within its band is not sent for water, only told what it could take', () => {
    const add = { litres: 4.3, litresPer10Kg: 0.5, fromFrac: 0.52, toFrac: 0.57 };
    expect(wateringWords(add, 0.52, band, words).map(plain)).toEqual([
      'It needs no water now. Should a squeezed handful crumble, it could take at most about 4 L, which would bring it to 57 %.',
    ]);
  });
  test('without a mass it is told for each 10 kg; a trace and none are none', () => {
    const add = { litres: null, litresPer10Kg: 1.26, fromFrac: 0.4, toFrac: 0.57 };
    const said = wateringWords(add, 0.4, band, words).map(plain);
    expect(said[0]).toContain('about 1 L for each 10 kg of the bed');
    expect(said[1]).toContain('about 0.5 L for each 10 kg of the bed');
    expect(wateringWords({ ...add, litresPer10Kg: 0.05 }, 0.4, band, words)).toEqual([
      'By the balance it needs no water worth measuring now.',
    ]);
    expect(wateringWords(null, 0.6, band, words)).toEqual(['By the balance it needs no water now.']);
  });
  test('never more is told than the judge gave, and half never more than half', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 5000, noNaN: true }), (litres) => {
        const said = measurable(litres);
        expect(said).toBeLessThanOrEqual(litres + 1e-7);
        expect(measurable(said / 2)).toBeLessThanOrEqual(said / 2 + 1e-7);
      }),
      { seed: 41 },
    );
    expect([0.3, 0.99, 1, 9.9, 10.9, 104].map(measurable)).toEqual([0.3, 0.9, 1, 9.5, 10, 100]);
  });
});

describe('hands seen in the curves', () => {
  const barn = pileOf('barn-bed');
  const [turn] = barn.judgement?.detectedInterventions ?? [];
  if (!turn) throw new Error('a turn was seen at the barn bed');
  test('are offered until they are written down or denied', () => {
    expect(offeredHands(barn, [])).toEqual([turn]);
    expect(offeredHands(barn, [handKey('barn-bed', turn)])).toEqual([]);
    expect(offeredHands(barn, [handKey('north-bed', turn)])).toEqual([turn]);
    const act = (kind: string, hours: number) => ({
      id: 'x',
      kind,
      at: new Date(Date.parse(turn.at) + hours * msPerHour).toISOString(),
    });
    expect(offeredHands({ ...barn, acts: [act('spread', -2.9)] }, [])).toEqual([]);
    expect(offeredHands({ ...barn, acts: [act('spread', -3)] }, [])).toEqual([turn]);
    expect(offeredHands({ ...barn, acts: [act('note', 0)] }, [])).toEqual([turn]);
    expect(offeredHands({ ...barn, judgement: null }, [])).toEqual([]);
  });
  test('of what was denied the last sixty are remembered, each once', () => {
    const many = Array.from({ length: 70 }, (_, i) => String(i));
    const kept = many.reduce<string[]>(withDismissed, []);
    expect(kept).toHaveLength(60);
    expect(withDismissed(kept, '20').filter((key) => key === '20')).toHaveLength(1);
  });
});

describe('a person’s word', () => {
  const entry = (change: Partial<Entry>): Entry => ({
    id: 'e1',
    versionId: 'v1',
    version: 1,
    pileId: 'p',
    batchId: 'b2',
    at: at(0),
    recordedAt: at(0),
    by: 'M.',
    note: null,
    photoIds: [],
    what: { kind: 'readiness', smell: 'good', look: 'doubtful', ready: false },
    says: '',
    moistureFrac: null,
    reason: null,
    withdrawn: false,
    ...change,
  });
  test('is the newest of this batch that stands', () => {
    const entries = [
      entry({ batchId: 'b1' }),
      entry({ withdrawn: true }),
      entry({ what: { kind: 'note' } }),
      entry({ by: 'K.' }),
      entry({}),
    ];
    expect(lastWordOf(entries, 'b2')?.by).toBe('K.');
    expect(lastWordOf(entries, 'b3')).toBeUndefined();
  });
  test('is told with who said it', () => {
    const word = lastWordOf([entry({})], 'b2');
    if (!word) throw new Error('a word was said');
    expect(wordSentence(word, '10:00', words)).toBe('10:00, M.: smell good, look doubtful, not done yet.');
    expect(wordSentence({ ...word, by: null, ready: true }, '10:00', words)).toBe(
      '10:00, somebody: smell good, look doubtful, done.',
    );
  });
});

describe('why it says so', () => {
  test('every kind has a meaning and a title', () => {
    expect(Object.keys(conditionTexts).sort()).toEqual(warningKinds.map((kind) => `condition.${kind}.name`).sort());
    expect(Object.keys(meaningTexts).sort()).toEqual(warningKinds.map((kind) => `meaning.${kind}`).sort());
    expect(warningTitle('probe-silent', 'core')).toBe('Probe silent, core');
    expect(warningTitle('probe-out', 'edge')).toBe('Probe out of the pile, edge');
    expect(warningTitle('overheating', 'top')).toBe('Overheating, top');
    expect(warningTitle('drying', null)).toBe('Drying');
  });
  test('each limit a footing names is a limit of the stage', () => {
    for (const { restsOn } of conditions)
      for (const key of restsOn.limits) expect(Object.keys(stageLimitsSchema.shape)).toContain(key);
  });
  test('a kind stands once, by its gravest place', () => {
    const looked = pileOf('rice-bed').evidence;
    const { present, missing, absent } = whyGroups(looked);
    expect(present).toEqual(['probe-silent']);
    expect(missing).toContain('overheating');
    expect(present.length + missing.length + absent.length).toBe(new Set(looked.map((one) => one.kind)).size);
    const silent = looked.find((one) => one.kind === 'probe-silent');
    if (!silent) throw new Error('the core probe is silent');
    expect(whyGroups([{ ...silent, evidence: 'absent' }, silent])).toEqual({
      present: ['probe-silent'],
      missing: [],
      absent: [],
    });
  });
  test('only kinds we know have an address', () => {
    expect(isConditionKind('drying')).toBe(true);
    expect(['', 'Drying', 'toString', undefined].some(isConditionKind)).toBe(false);
  });
  test('acts of the last day may explain, older ones and notes do not', () => {
    const act = (kind: string, hours: number) => ({ id: kind, kind, at: at(hours) });
    const acts = [act('turned', -23.9), act('watered', -24), act('note', -1), act('covered', -2)];
    expect(actsLately(acts, nowMs).map((one) => one.kind)).toEqual(['covered', 'turned']);
  });
});

describe('limits as they are typed', () => {
  const { limits } = pileOf('north-bed');
  test('every limit of a stage can be changed', () => {
    expect([...limitFields].sort()).toEqual(Object.keys(stageLimitsSchema.shape).sort());
  });
  test('what is shown and typed back is what was kept, in °C and °F', () => {
    for (const unit of ['C', 'F'] as const)
      for (const key of limitFields) {
        const { value } = limits[key] ?? { value: Number.NaN };
        expect(keptLimit(key, shownLimit(key, value, unit), unit)).toBeCloseTo(value, 3);
      }
  });
  test('only what was typed is sent, in the units of the contract', () => {
    expect(limitChange(limits, { actC: '122', moistureMaxFrac: '62,5', lengthMaxH: '9' }, 'F', words)).toEqual({
      limits: { actC: 50, moistureMaxFrac: 0.625, lengthMaxH: 216 },
      wrong: {},
    });
  });
  test('a limit that is out of order is told at its field', () => {
    expect(limitChange(limits, { actC: '45' }, 'C', words).wrong).toEqual({ actC: 'Must be above “Comfortable to”' });
    expect(limitChange(limits, { actC: '45.1' }, 'C', words).wrong).toEqual({});
    expect(limitChange(limits, { depthMinM: '40' }, 'C', words).wrong).toEqual({
      depthMaxM: 'Must be above “Depth from”',
    });
    expect(limitChange(limits, { lossC: 'hot' }, 'C', words).wrong).toEqual({ lossC: 'Give a number' });
  });
});

test('how far a batch has come is told only where its core is measured', () => {
  const [pile] = mockFarm(nowMs).piles;
  if (!pile) throw new Error('The farm must have a pile');
  const core = { probe: 'p', silent: false };
  expect(plain(standSentence({ ...pile, positions: { core: { ...core, temperatureC: 40 } } }, words))).toMatch(
    /^It is active\. \d+ %/,
  );
  expect(standSentence({ ...pile, tone: 'unknown' }, words)).toBe('Its phase is not known yet.');
  for (const positions of [{}, { core: { ...core, moisturePct: 30 } }, { air: { ...core, temperatureC: 12 } }]) {
    expect(standSentence({ ...pile, positions }, words)).toBe(
      'How far its work has come is not known, as its core is not measured.',
    );
  }
});
