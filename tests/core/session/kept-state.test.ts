import { expect, test } from 'vitest';
import { z } from 'zod';
import { judgeStateSchema } from '../../../core/estimate/state.ts';
import { stateVersion, versionOf } from '../../../core/session/kept-state.ts';

const schema = z.object({ hours: z.number(), place: z.object({ tempC: z.number().nullable() }) });

test('versionOf() is the same for the same schema, however often it is made', () => {
  const again = z.object({ hours: z.number(), place: z.object({ tempC: z.number().nullable() }) });
  expect(versionOf(again, 1)).toBe(versionOf(schema, 1));
});

for (const [what, changed, means] of [
  ['one more field', schema.extend({ wet: z.boolean() }), 1],
  ['one field less', schema.omit({ hours: true }), 1],
  ['a field of another name', schema.omit({ hours: true }).extend({ days: z.number() }), 1],
  ['a field deep inside that may no longer be null', schema.extend({ place: z.object({ tempC: z.number() }) }), 1],
  ['a field that means something else', schema, 2],
] as const) {
  test(`versionOf() is another one for ${what}`, () => {
    expect(versionOf(changed, means)).not.toBe(versionOf(schema, 1));
  });
}

test('stateVersion() follows the schema of what the judge remembers', () => {
  expect(stateVersion()).toBe(versionOf(judgeStateSchema, 1));
  expect(stateVersion()).not.toBe(versionOf(judgeStateSchema.omit({ water: true }), 1));
});
