/**
 * What a column may become: offered in words, and told to the server as it understands it.
 */
import { expect, test } from 'vitest';
import { type ColumnMeaning, columnMeaningSchema } from '../../shared/contracts/import.ts';
import { plainReader } from '../../shared/messages/format.ts';
import { pageImportTexts } from '../../shared/messages/made/en/page-import.ts';
import { pageWords } from '../../web/src/data/live/page-texts.ts';
import { choiceOf, choicesFor, meaningOf } from '../../web/src/features/import/column-choices.ts';

const words = pageWords(pageImportTexts, plainReader(0));

const meanings: readonly ColumnMeaning[] = [
  { as: 'ignored' },
  { as: 'field', field: 'time' },
  { as: 'field', field: 'amountL' },
  { as: 'value', quantity: 'temperature', probe: 'core-1', unit: 'F' },
];

for (const kind of ['readings', 'entries'] as const) {
  test.each(meanings)(`of ${kind}, %j is among its own choices and comes back as it was`, (meaning) => {
    expect(choicesFor(kind, meaning, words).map(([choice]) => choice)).toContain(choiceOf(meaning));
    expect(meaningOf(choiceOf(meaning), meaning)).toEqual(meaning);
  });
  test(`every choice for ${kind} is one that an import takes`, () => {
    const choices = choicesFor(kind, { as: 'ignored' }, words);
    expect(choices.length).toBeGreaterThan(3);
    for (const [choice] of choices) {
      expect(columnMeaningSchema.safeParse(meaningOf(choice, { as: 'ignored' })).success).toBe(true);
    }
  });
}

test('another quantity keeps the probe and unit that were found', () =>
  expect(meaningOf('value:humidity', { as: 'value', quantity: 'temperature', probe: 'p1' })).toEqual({
    as: 'value',
    quantity: 'humidity',
    probe: 'p1',
  }));
test('an unknown quantity changes nothing', () =>
  expect(meaningOf('value:gold', { as: 'ignored' })).toEqual({ as: 'ignored' }));
