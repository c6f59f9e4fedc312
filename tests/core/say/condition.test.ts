import { expect, test } from 'vitest';
import { plainEnglish } from '../../../shared/messages/render.ts';
import { msPerHour } from '../../../shared/units.ts';
import { Played, play, setupOf, startMs, through } from '../helpers.ts';

const cases: [string, (hour: number) => number | null, number, string, string][] = [
  ['one just laid', () => 22, 1, 'It has not begun to warm yet: the core is at 22 °C.', 'calm'],
  [
    'one that warms',
    through([0, 22], [20, 31]),
    20,
    'It is warming: the core is at 31 °C, 11 °C above the air.',
    'calm',
  ],
  [
    'one that works',
    through([0, 22], [40, 42]),
    40,
    'It is working well: the core is at 42 °C, 22 °C above the air.',
    'calm',
  ],
  [
    'one near its limit',
    through([0, 22], [30, 48], [40, 48]),
    40,
    'It is working hard: the core is at 48 °C, near the 50 °C at which to act.',
    'watch',
  ],
  [
    'one too hot',
    through([0, 22], [40, 52], [42, 53]),
    42,
    'It is too hot: the core is at 53 °C, and 50 °C is the limit.',
    'act',
  ],
  [
    'one a hair too hot',
    through([0, 22], [40, 50.2], [42, 50.4]),
    42,
    'It has reached its limit of 50 °C: the core is at 50.4 °C.',
    'act',
  ],
  [
    'one too hot by more than a probe may be off',
    through([0, 22], [40, 50.4], [42, 50.6]),
    42,
    'It is too hot: the core is at 51 °C, and 50 °C is the limit.',
    'act',
  ],
  [
    'one past its loss limit',
    through([0, 22], [40, 61]),
    40,
    'It is too hot: the core is at 61 °C, and 50 °C is the limit.',
    'danger',
  ],
  [
    'one that may catch fire',
    through([0, 30], [40, 72]),
    40,
    'It is heating dangerously: the core is at 72 °C.',
    'danger',
  ],
];
for (const [name, curve, hours, sentence, tone] of cases) {
  test(`sayCondition() of ${name}: ${sentence}`, () => {
    const saying = play(setupOf(), hours, curve).say();
    expect([saying.condition, saying.tone]).toEqual([sentence, tone]);
    expect(saying.next.length).toBeGreaterThan(5);
  });
}

const warmAlready = 'Leave it covered; whether it makes heat of its own shows within a day or two.';
const notYet = 'Leave it covered; most piles warm within a day or two.';
type Curve = (hour: number) => number;
const asLaid: [string, Curve, number, Curve | null, string, string][] = [
  // how it lies                       core     hours  air        what is said, and what to do
  ['cool', () => 22, 0, () => 20, 'It has not begun to warm yet: the core is at 22 °C.', notYet],
  ['just not warm', () => 23.9, 0, () => 20, 'It has not begun to warm yet: the core is at 24 °C.', notYet],
  ['just warm', () => 24.1, 0, () => 20, 'It is warm already: the core is at 24 °C, 4 °C above the air.', warmAlready],
  ['warm', () => 34, 0, () => 20, 'It is warm already: the core is at 34 °C, 14 °C above the air.', warmAlready],
  [
    'warm, for hours',
    () => 34,
    5,
    () => 20,
    'It is warm already: the core is at 34 °C, 14 °C above the air.',
    warmAlready,
  ],
  [
    'as warm as it works',
    () => 38,
    0,
    () => 20,
    'It is warm already: the core is at 38 °C, 18 °C above the air.',
    warmAlready,
  ],
  ['cool in hot air', () => 31, 0, () => 30, 'It has not begun to warm yet: the core is at 31 °C.', notYet],
  ['warm, the air unknown', () => 34, 0, null, 'It is warm already: the core is at 34 °C.', warmAlready],
  [
    'not clearly warm, the air unknown',
    () => 28.9,
    0,
    null,
    'It has not begun to warm yet: the core is at 29 °C.',
    notYet,
  ],
];
test('sayCondition() of one that is too hot sends nobody to it without gloves and mask, however hot', () => {
  for (const peakC of [52, 61]) {
    const saying = play(setupOf(), 40, through([0, 22], [40, peakC])).say();
    expect([peakC, saying.next]).toEqual([peakC, expect.stringContaining('with gloves and a dust mask on')]);
  }
});

test('what is to be done next says the same beside the sentence and beside the signs of readiness', () => {
  const all = play(setupOf(), 140, through([0, 22], [30, 43], [110, 43], [140, 31]));
  expect(all.last).toMatchObject({ phase: 'cooling', readiness: { proposal: 'not-yet' } });
  expect(all.last?.progressPct).toBeGreaterThanOrEqual(90);
  expect(all.say().next).toBe('Let it come down near the air; then turn it once and see whether it warms again.');
  expect(all.last && plainEnglish(all.last.readiness.next)).toBe('Let it work until it has come back near the air.');
});

test('sayCondition() of one laid hot tells how near its limit it is', () => {
  const saying = play(setupOf(), 0, () => 47).say();
  expect([saying.condition, saying.tone]).toEqual([
    'It is hot already: the core is at 47 °C, near the 50 °C at which to act.',
    'watch',
  ]);
});

test.each([
  [
    () => 22,
    'It has not begun to warm: the core is at 22 °C, 2 °C above the air, later than such a pile usually takes.',
  ],
  [
    () => 26,
    'It does not warm further: the core is at 26 °C, 6 °C above the air, cooler than such a pile usually is by now.',
  ],
])('sayCondition() of one below its band: %#', (core, sentence) => {
  const all = play(setupOf(), 13, core);
  if (all.last) all.last = { ...all.last, againstExpected: 'below' };
  expect([all.say().condition, all.say().tone]).toEqual([sentence, 'watch']);
});

test('sayCondition() of one laid ten minutes ago does not call it late, wherever its band lies', () => {
  const all = play(setupOf(), 1 / 6, () => 22);
  if (all.last) all.last = { ...all.last, againstExpected: 'below' };
  expect([all.say().condition, all.say().tone]).toEqual([
    'It has not begun to warm yet: the core is at 22 °C.',
    'calm',
  ]);
});

for (const [how, core, hours, air, sentence, next] of asLaid) {
  test(`sayCondition() of one laid ${how}: ${sentence}`, () => {
    const saying = play(setupOf(), hours, core, air).say();
    expect([saying.condition, saying.next, saying.tone]).toEqual([sentence, next, 'calm']);
  });
}

test('sayCondition() of one whose first warmth faded does not say that it never warmed', () => {
  const all = play(setupOf(), 22, through([0, 20], [6, 26], [12, 26], [20, 21], [30, 21]));
  expect(all.last?.phaseReason).toBe('heat-faded');
  expect(all.say().condition).toBe('Its first warmth has faded: the core is at 21 °C.');
});

test('sayCondition() speaks °F to whoever asked for it', () => {
  const all = play(setupOf(), 42, through([0, 22], [40, 52], [42, 53]));
  expect(all.say('F').condition).toBe('It is too hot: the core is at 127 °F, and 122 °F is the limit.');
  expect(play(setupOf(), 40, through([0, 22], [40, 42])).say('F').condition).toContain('108 °F, 40 °F above the air');
});

test('sayCondition() of a pile that nobody measures asks for a probe', () => {
  const all = new Played(setupOf());
  all.evaluate(startMs);
  expect(all.say().condition).toBe('No probe in this pile has spoken yet.');
});

test('sayCondition() mentions a silent top but still says how the core is', () => {
  const all = new Played(setupOf());
  for (let hour = 0; hour <= 12; hour += 1) {
    if (hour < 5) all.feed('top', 25, startMs + hour * msPerHour);
    all.feed('core', 30 + hour, startMs + hour * msPerHour);
    all.feed('air', 20, startMs + hour * msPerHour);
    all.lookUntil(startMs + hour * msPerHour);
  }
  expect(all.say().condition).toContain('It is w');
  expect(all.say().next).toBe('Look at the top probe: it has stopped talking.');
});

test('no sentence ever says safe, sanitised or ready, whatever the curve', () => {
  const words = new Set<string>();
  for (const peakC of [24, 40, 49, 53, 63, 75, 95]) {
    const curve = through([0, 22], [40, peakC], [60, peakC], [200, 21]);
    for (const diesH of [30, 500]) {
      for (const hours of [10, 45, 100, 260]) {
        const all = play(
          setupOf(),
          hours,
          (hour) => (hour > diesH ? null : curve(hour)),
          () => 20,
          { everyMin: 60 },
        );
        const { condition, next } = all.say();
        words.add(condition).add(next);
        for (const { seen, todo, why, caution } of all.last?.findings ?? [])
          words
            .add(plainEnglish(seen))
            .add(plainEnglish(todo))
            .add(plainEnglish(why))
            .add(caution === null ? '' : plainEnglish(caution));
      }
    }
  }
  for (const sentence of words) {
    expect(sentence).not.toMatch(/\bsafe\b|saniti[sz]ed|\bready\b(?! to)/i);
    expect(sentence).not.toMatch(/undefined|NaN|null/);
  }
  expect(words.size).toBeGreaterThan(20);
});
