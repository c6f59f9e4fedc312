import { expect, test } from 'vitest';
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
    'It is too hot: the core is at 50.4 °C, and 50 °C is the limit.',
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

test('sayCondition() speaks °F to whoever asked for it', () => {
  const all = play(setupOf(), 42, through([0, 22], [40, 52], [42, 53]));
  expect(all.say('F').condition).toBe('It is too hot: the core is at 127 °F, and 122 °F is the limit.');
  expect(play(setupOf(), 40, through([0, 22], [40, 42])).say('F').condition).toContain('108 °F, 40 °F above the air');
});

test('sayCondition() of a pile that nobody measures asks for a probe', () => {
  const all = new Played(setupOf());
  all.look(startMs);
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
            .add(seen)
            .add(todo)
            .add(why)
            .add(caution ?? '');
      }
    }
  }
  for (const sentence of words)
    expect(sentence).not.toMatch(/\bsafe\b|saniti[sz]ed|\bready\b(?! to)|undefined|NaN|null/i);
  expect(words.size).toBeGreaterThan(20);
});
