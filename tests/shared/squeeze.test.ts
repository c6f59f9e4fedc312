// Two or three drops right for bran: community composting practice, read second-hand. Near field capacity a ball of soil wets the palm
// and gives no drop: USDA NRCS, Estimating Soil Moisture by Feel and Appearance (1998), from memory.
import { describe, expect, test } from 'vitest';
import { foundMessage } from '../../core/by-hand/note-message.ts';
import { signOf } from '../../core/by-hand/note-sign.ts';
import { planWater } from '../../core/plan/water.ts';
import { lookFor } from '../../core/readiness/readiness-message.ts';
import { entryMessage } from '../../core/records/entry-message.ts';
import { squeezeFeels } from '../../shared/entry.ts';
import { metric } from '../../shared/messages/format.ts';
import { plainEnglish } from '../../shared/messages/render.ts';
import { squeezeFelt, squeezeHow, squeezeMeans, squeezeResult, squeezeTodo } from '../../shared/squeeze.ts';
import { stageLimits } from '../../shared/stage.ts';
import { squeezed, squeezedMessage } from '../../simulator/practice/hand-check.ts';

test.each([
  ['bran', 'crumbles', 'Crumbles when the hand opens: too dry'],
  ['bran', 'holds', 'Holds together, no drop: right, on the dry side'],
  ['bran', 'drips', 'Holds together, two or three drops: right'],
  ['bran', 'pours', 'Water runs out: too wet'],
  ['soil', 'crumbles', 'Crumbles when the hand opens: too dry'],
  ['soil', 'holds', 'Holds together, no drop: right'],
  ['soil', 'drips', 'Holds together, two or three drops: a little wet'],
  ['soil', 'pours', 'Water runs out: too wet'],
] as const)('squeezeResult() in %s of what %s: %s', (stage, feel, says) =>
  expect(plainEnglish(squeezeResult(feel, stage))).toBe(says),
);

test('squeezeHow says what to wear, what to take, where, how hard and how long', () => {
  const how = plainEnglish(squeezeHow);
  for (const part of [/gloves/, /handful from the core/, /cool side/, /hard/, /seconds/]) expect(how).toMatch(part);
});

for (const stage of ['bran', 'soil'] as const) {
  describe(`the squeeze test of ${stage}`, () => {
    for (const feel of squeezeFeels) {
      const [felt, means] = [plainEnglish(squeezeFelt(feel)), plainEnglish(squeezeMeans(feel, stage))];
      test(`${feel}: journal, record and practice say the same, and the judge means it`, () => {
        expect(plainEnglish(entryMessage({ kind: 'squeeze', feel }, stage))).toBe(`Squeezed: ${felt} (${means})`);
        if (stage === 'bran') expect(plainEnglish(squeezedMessage(feel)).toLowerCase()).toBe(`${felt}: ${means}.`);
        const limits = stageLimits[stage];
        expect(signOf('hand-dry', { kind: 'squeeze', feel }, limits) === 'bad').toBe(means === 'too dry');
        expect(signOf('hand-wet', { kind: 'squeeze', feel }, limits) === 'bad').toBe(means === 'too wet');
        // What to do follows what was found.
        expect(/water, mix/.test(plainEnglish(squeezeTodo(feel)))).toBe(means === 'too dry');
        expect(/keep rain off/.test(plainEnglish(squeezeTodo(feel)))).toBe(means === 'too wet');
      });
    }
    test('what is found ready holds together, and nothing that is right is said to be bad', () => {
      const [good, bad] = [lookFor[stage].good, lookFor[stage].bad].map((list) => list.map(plainEnglish).join(' '));
      expect(good).toMatch(/A squeezed handful holds together/);
      expect(good).toMatch(stage === 'soil' ? /no drop/ : /no more than two or three drops/);
      expect(good).not.toMatch(/crumble/);
      expect(bad).toMatch(/water that runs out of a squeezed handful/);
    });
  });
}

test.each([
  ['wheat-bran', /it should hold together and give two or three drops/],
  ['soil', /it should hold together and give no drop/],
] as const)('planWater() of %s asks for a squeeze on its own scale', (material, says) => {
  const plan = planWater({
    units: metric,
    materialKg: 10,
    material,
    moistureNow: 0.12,
    moistureTarget: material === 'soil' ? 0.45 : 0.6,
  });
  expect(plainEnglish(plan.says)).toMatch(says);
});

test('a note of practice and one of a real pile are the same: what poured is too wet in both', () => {
  const feel = squeezed({ moistureFrac: 0.72 });
  expect(plainEnglish(foundMessage({ kind: 'squeeze', feel }))).toBe('Water ran out of a squeezed handful.');
});
