/** What a column of a file may become, as one line of a list, and back. */
import type { ColumnMeaning, ImportAsk } from '../../../../shared/contracts/import.ts';
import { quantities } from '../../../../shared/quantity.ts';
import { shortName } from '../../ui/format/quantity-words.ts';

const readingFields: readonly (readonly [string, string])[] = [
  ['time', 'time, with its day'],
  ['date', 'day'],
  ['clock', 'time of day'],
  ['site', 'place'],
  ['probe', 'probe'],
  ['quantity', 'what was measured'],
  ['value', 'the value'],
  ['unit', 'unit'],
];
const entryFields: readonly (readonly [string, string])[] = [
  ['time', 'time, with its day'],
  ['date', 'day'],
  ['clock', 'time of day'],
  ['pile', 'pile'],
  ['kind', 'kind of entry'],
  ['by', 'who'],
  ['note', 'note'],
  ['id', 'its own id'],
];

export function choiceOf(meaning: ColumnMeaning): string {
  if (meaning.as === 'ignored') return 'ignored';
  return meaning.as === 'field' ? `field:${meaning.field}` : `value:${meaning.quantity}`;
}

export function choicesFor(kind: ImportAsk['kind'], now: ColumnMeaning): readonly (readonly [string, string])[] {
  const fields = kind === 'readings' ? readingFields : entryFields;
  const known: (readonly [string, string])[] = [
    ['ignored', 'left out'],
    ...fields.map(([field, words]) => [`field:${field}`, words] as const),
    ...(kind === 'readings'
      ? quantities.map((quantity) => [`value:${quantity}`, `values of ${shortName(quantity)}`] as const)
      : []),
  ];
  const own = choiceOf(now);
  // The server knows more fields (those of each kind of entry) than are offered here.
  return known.some(([choice]) => choice === own) ? known : [...known, [own, own.replace(/^\w+:/, '')] as const];
}

export function meaningOf(choice: string, before: ColumnMeaning): ColumnMeaning {
  if (choice === 'ignored') return { as: 'ignored' };
  const name = choice.slice(choice.indexOf(':') + 1);
  if (choice.startsWith('field:')) return { as: 'field', field: name };
  const quantity = quantities.find((one) => one === name);
  if (!quantity) return before;
  return before.as === 'value' ? { ...before, quantity } : { as: 'value', quantity };
}
