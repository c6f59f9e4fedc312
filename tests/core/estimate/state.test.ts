import { expect, test } from 'vitest';
import { noteAct } from '../../../core/estimate/disturbance.ts';
import { judgeStateSchema, startState } from '../../../core/estimate/state.ts';
import { setupOf, startMs } from '../helpers.ts';

test('a slice is written to through its own module alone: whoever holds the state may only read it', () => {
  const state = startState(setupOf());
  noteAct(state.disturbance, { kind: 'turned', atMs: startMs + 1 });
  expect(state.disturbance).toMatchObject({ atMs: startMs + 1, by: 'logged' });

  const byStrangers = (): void => {
    // @ts-expect-error a slice is not replaced
    state.water = startState(setupOf()).water;
    // @ts-expect-error nor written to
    state.phase.now = 'settled';
    // @ts-expect-error nor below
    state.ahead.record.errors = 0;
  };
  expect(byStrangers).toBeTypeOf('function');
});

test('startState() is of the shape in which states are kept, with each slice there is', () => {
  const state = startState(setupOf());
  expect(judgeStateSchema.strict().parse(state)).toEqual(state);
  expect(Object.keys(state)).toEqual(Object.keys(judgeStateSchema.shape));
});
