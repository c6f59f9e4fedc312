// A pile whose one warning was shelved was said to be calm, and home counted it so.
import { describe, expect, test } from 'vitest';
import { sayCondition } from '../../../core/say/condition.ts';
import type { StandingAlarm } from '../../../core/say/saying.ts';
import type { AlarmState, WarningKind } from '../../../shared/warning.ts';
import { inSentences, type Played, play, setupOf, through } from '../helpers.ts';

const dry = play(
  setupOf('bran', { recipe: { ...setupOf().recipe, moistureFrac: 0.42 } }),
  60,
  through([0, 22], [30, 42], [60, 42]),
);
const dying = play(setupOf(), 40, through([0, 22], [40, 61]));
const burning = play(setupOf(), 40, through([0, 30], [40, 72]));

const alarm = (kind: WarningKind, state: AlarmState, stands = true): StandingAlarm => ({
  kind,
  position: null,
  state,
  stands,
});
const say = ({ last }: Played, alarms: readonly StandingAlarm[]) => {
  if (last === null) throw new Error('never looked at');
  return inSentences(sayCondition(last, alarms));
};

describe('what a pile says of a shelved warning', () => {
  test('is the same sentence and the same advice, as something to watch', () => {
    const told = say(dry, [alarm('drying', 'unacknowledged')]);
    for (const state of ['shelved', 'out-of-service'] as const) {
      const shelved = say(dry, [alarm('drying', state)]);
      expect([shelved.condition, shelved.next]).toEqual([told.condition, told.next]);
      expect([told.tone, shelved.tone]).toEqual(['act', 'watch']);
    }
  });
  test('stays pressing while another one stands that nobody has shelved', () => {
    expect(say(dry, [alarm('drying', 'shelved'), alarm('stalling', 'unacknowledged')]).tone).toBe('act');
  });
  test('stays a danger where it is one', () => {
    expect(say(dying, [alarm('overheating', 'shelved')]).tone).toBe('danger');
    expect(say(burning, [alarm('self-heating', 'shelved')])).toMatchObject({
      condition: 'It is heating dangerously: the core is at 72 °C.',
      tone: 'danger',
    });
  });
  test('is nothing once it has passed on the shelf', () => {
    expect(say(dry, [alarm('drying', 'shelved', false)])).toEqual(say(dry, []));
  });
  test('lets lesser warnings yield to it all the same', () => {
    const said = say(burning, [alarm('self-heating', 'shelved'), alarm('overheating', 'unacknowledged')]);
    expect(said.condition).toContain('heating dangerously');
  });
});
