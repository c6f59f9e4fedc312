import { describe, expect, test } from 'vitest';
import { sayCondition } from '../../../core/say/condition.ts';
import { msPerHour } from '../../../shared/units.ts';
import { inSentences, inWords, Played, play, setupOf, startMs, through } from '../helpers.ts';

test('a core below 12 °C for six hours is chilled, for five hours not', () => {
  const cold = (hours: number): string[] =>
    play(
      setupOf(),
      hours,
      () => 9,
      () => 8,
    ).raised();
  expect(cold(5)).toEqual([]);
  expect(cold(10)).toEqual(['chilled/null']);
});
test('a core at 12.5 °C is not chilled', () => {
  expect(
    play(
      setupOf(),
      24,
      () => 12.5,
      () => 11,
    ).raised(),
  ).toEqual([]);
});
test('a silent core holds back chilled', () => {
  const all = play(
    setupOf(),
    20,
    (hour) => (hour < 4 ? 9 : null),
    () => 8,
  );
  expect(all.raised()).toEqual(['probe-silent/core']);
  expect([all.finding('chilled').evidence, all.finding('chilled').explainedBy]).toEqual(['missing', 'probe-silent']);
});

test('a bed laid at 75 % that does not warm is waterlogged, one that works is not', () => {
  const recipe = { material: 'rice-bran', depthM: 0.3, massKg: 100, moistureFrac: 0.75, cover: 'breathable' } as const;
  const choked = play(setupOf('bran', { recipe }), 34, through([0, 20], [34, 24]));
  expect(choked.raised()).toContain('waterlogged/null');
  expect(inWords(choked.finding('waterlogged')).caution).toContain('open the doors');
  const works = play(setupOf('bran', { recipe }), 34, through([0, 20], [20, 42], [34, 43]));
  expect(works.raised()).not.toContain('waterlogged/null');
});

function topAndBase(topC: number, baseC: number, hours: number, depthM = 0.3): Played {
  const all = new Played(setupOf('bran', { recipe: { ...setupOf().recipe, depthM } }));
  for (let hour = 0; hour <= hours; hour += 1) {
    const atMs = startMs + hour * msPerHour;
    const wobbleK = 0.03 * (hour % 7);
    for (const [position, tempC] of [
      ['core', 42],
      ['top', topC],
      ['base', baseC],
      ['air', 20],
    ] as const) {
      all.feed(position, tempC + wobbleK, atMs);
    }
    all.lookUntil(atMs + 50 * 60_000);
  }
  return all;
}
test('a top and a base 15 °C apart through the day are uneven, 11 °C apart not', () => {
  expect(topAndBase(40, 25, 30).raised()).toEqual(['uneven/null']);
  expect(inWords(topAndBase(40, 25, 30).finding('uneven')).todo).toContain('base');
  expect(topAndBase(36, 25, 30).raised()).toEqual([]);
});
test('a tall heap is cool at its foot by nature', () => {
  expect(topAndBase(40, 22, 30, 1.8).raised()).toEqual([]);
});

// Self-heating ladder: 150, 160, 175, 190, 200 °F of farm extension services for stored hay (second-hand).
const ladder: [number, string | null, string][] = [
  [64.9, null, ''],
  [65, 'urgent', 'danger zone'],
  [71, 'danger', 'serious'],
  [79, 'danger', 'hot pockets'],
  [88, 'danger', 'fire may start'],
  [93, 'danger', 'fire is imminent'],
];
for (const [peakC, severity, words] of ladder) {
  test(`a core of ${peakC} °C is ${severity ?? 'not on the ladder of self-heating'}`, () => {
    const all = new Played(setupOf());
    [peakC - 6, peakC - 3, peakC].forEach((tempC, index) => {
      all.feed('core', tempC, startMs + index * msPerHour);
      all.evaluate(startMs + index * msPerHour);
    });
    const { evidence, severity: said } = all.finding('self-heating');
    const { seen } = inWords(all.finding('self-heating'));
    expect([evidence, evidence === 'present' ? said : null]).toEqual([
      severity === null ? 'absent' : 'present',
      severity,
    ]);
    expect(seen).toContain(words);
  });
}
test('one wild reading of 90 °C calls no fire brigade', () => {
  const all = play(setupOf(), 6, (hour) => (hour === 3 ? 90 : 40));
  expect(all.raised()).toEqual([]);
});
test('self-heating that gets worse asks again after it was acknowledged', () => {
  const all = new Played(setupOf());
  [60, 66, 69].forEach((tempC, index) => {
    all.feed('core', tempC, startMs + index * msPerHour);
    all.evaluate(startMs + index * msPerHour);
  });
  expect(all.raised()).toContain('self-heating/null');
  expect(all.finding('self-heating').severity).toBe('urgent');
});

describe('readings that came late, all at once, from a probe that is silent by then', () => {
  const late = (lastC: number) => {
    const all = new Played(setupOf());
    const rise = through([0, 25], [40, lastC]);
    for (let hour = 0; hour <= 40; hour += 0.5) all.feed('core', rise(hour), startMs + hour * msPerHour);
    all.evaluate(startMs + 44 * msPerHour);
    return all;
  };

  test.each([
    [66, 'urgent', 'Spread it out thin'],
    [85, 'danger', 'Call the fire service before touching the heap'],
  ])(
    'with %d °C as their last: the hazard is raised, and its order is what the pile says',
    (lastC, severity, order) => {
      const all = late(lastC);
      expect(all.raised()).toContain('self-heating/null');
      const hazard = all.finding('self-heating');
      expect(hazard.severity).toBe(severity);
      expect(inWords(hazard).seen).toContain(`The core was at ${lastC} °C 4 hours ago`);
      const alarms = all.alarms.map((alarm) =>
        alarm.kind === 'self-heating' ? { ...alarm, todo: hazard.todo } : alarm,
      );
      if (all.last === null) throw new Error('never looked at');
      const { condition, next, tone } = inSentences(sayCondition(all.last, alarms));
      expect(condition).toBe(
        `It was heating dangerously when the core probe fell silent 4 hours ago at ${lastC} °C, and nobody knows how it is now.`,
      );
      expect([tone, next]).toEqual(['danger', expect.stringContaining(order)]);
    },
  );

  test('with 60 °C as their last: no hazard', () => {
    expect(late(60).raised()).not.toContain('self-heating/null');
  });
});
