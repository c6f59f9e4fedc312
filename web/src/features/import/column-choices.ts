/** What a column of a file may become, as one line of a list, and back. */
import type { ColumnMeaning, ImportAsk } from '../../../../shared/contracts/import.ts';
import { quantities } from '../../../../shared/quantity.ts';
import { shortName } from '../../ui/format/quantity-words.ts';
import type { ImportWords } from './use-import-words.ts';

const readingFields = ['time', 'date', 'clock', 'site', 'probe', 'quantity', 'value', 'unit'] as const;
const entryFields = ['time', 'date', 'clock', 'pile', 'kind', 'by', 'note', 'id'] as const;

export function choiceOf(meaning: ColumnMeaning): string {
  if (meaning.as === 'ignored') return 'ignored';
  return meaning.as === 'field' ? `field:${meaning.field}` : `value:${meaning.quantity}`;
}

export function choicesFor(
  kind: ImportAsk['kind'],
  now: ColumnMeaning,
  { text }: Pick<ImportWords, 'text'>,
): readonly (readonly [string, string])[] {
  const fields = kind === 'readings' ? readingFields : entryFields;
  const known: (readonly [string, string])[] = [
    ['ignored', text('page-import.column.ignored')],
    ...fields.map((field) => [`field:${field}`, text(`page-import.column.${field}`)] as const),
    ...(kind === 'readings' ? quantities : []).map((quantity) => {
      const quantityName = shortName(quantity);
      return [`value:${quantity}`, text('page-import.column.values', { quantityName })] as const;
    }),
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
