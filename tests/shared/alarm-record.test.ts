import { expect, test } from 'vitest';
import { alarmWordsSchema } from '../../shared/alarm-record.ts';
import { message, verbatim } from '../../shared/messages/message.ts';

test('what was kept of a warning before messages had codes is said as it stands', () => {
  const row = { seen: 'The core is at 52 °C.', todo: 'Turn it.', caution: 'Wear a mask.' };
  expect(alarmWordsSchema.parse(row)).toEqual({
    seen: verbatim('The core is at 52 °C.'),
    todo: verbatim('Turn it.'),
    byMs: null,
    caution: verbatim('Wear a mask.'),
  });
  expect(alarmWordsSchema.parse({ seen: 'Older.' })).toEqual({
    seen: verbatim('Older.'),
    todo: verbatim(''),
    byMs: null,
    caution: null,
  });
});

test('what is kept of a warning now comes back as the messages it was', () => {
  const words = {
    seen: message('warnings.heat-damage.seen.never', { lossC: 60 }),
    todo: message('plain.nothing-to-do'),
    byMs: 1,
    caution: message('caution.spores'),
  };
  expect(alarmWordsSchema.parse(JSON.parse(JSON.stringify(words)))).toEqual(words);
});
