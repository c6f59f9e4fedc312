/** What a column means, by its heading. */
import type { ColumnMeaning, ImportAsk } from '../../../shared/contracts/import.ts';
import { type Message, type MessageParams, message } from '../../../shared/messages/message.ts';
import { positions } from '../../../shared/names.ts';
import { quantityFacts } from '../../../shared/quantity.ts';
import { idFromName } from '../../id-from-name.ts';
import { entryFactColumns } from '../records/export/subjects.ts';
import { headingDegrees, headingUnit, namedQuantity, plain, withoutQuantity } from './heading-words.ts';

const ignored: ColumnMeaning = { as: 'ignored' };

const commonFields: Record<string, string> = {
  time: 'time',
  timestamp: 'time',
  datetime: 'time',
  'date time': 'time',
  at: 'time',
  when: 'time',
  'measured at': 'time',
  date: 'date',
  day: 'date',
  clock: 'clock',
  hour: 'clock',
  'time of day': 'clock',
};
const readingFields: Record<string, string> = {
  ...commonFields,
  site: 'site',
  probe: 'probe',
  sensor: 'probe',
  logger: 'probe',
  device: 'probe',
  quantity: 'quantity',
  parameter: 'quantity',
  value: 'value',
  reading: 'value',
  unit: 'unit',
  units: 'unit',
};
const entryFields: Record<string, string> = {
  ...commonFields,
  id: 'id',
  pile: 'pile',
  heap: 'pile',
  kind: 'kind',
  what: 'kind',
  act: 'kind',
  by: 'by',
  who: 'by',
  note: 'note',
  notes: 'note',
  remark: 'note',
  photos: 'photos',
  withdrawn: 'withdrawn',
  ...Object.fromEntries(
    entryFactColumns.filter((name) => name !== 'moistureFrac').map((name) => [name.toLowerCase(), name]),
  ),
  where: 'position',
  spot: 'position',
  litres: 'amountL',
  'water l': 'amountL',
  'depth m': 'depthM',
  'rain mm': 'rainMm',
};

export function guessMeaning(heading: string, kind: ImportAsk['kind']): ColumnMeaning {
  const words = plain(heading);
  const field = (kind === 'readings' ? readingFields : entryFields)[words];
  if (field !== undefined) return { as: 'field', field };
  return kind === 'readings' ? guessValue(heading, words) : guessFact(words);
}

/** A temperature or a moisture with its unit, which is found out again where the cells are read. */
function guessFact(words: string): ColumnMeaning {
  const quantity = namedQuantity(words);
  if (quantity === undefined || withoutQuantity(words, quantity) !== '') return ignored;
  if (quantity === 'temperature') return { as: 'field', field: 'temperatureC' };
  return quantity === 'moisture' ? { as: 'field', field: 'moisturePct' } : ignored;
}

function guessValue(heading: string, words: string): ColumnMeaning {
  const isPlace = (positions as readonly string[]).includes(words);
  const isHeat = isPlace || headingDegrees(heading) !== undefined;
  const quantity = namedQuantity(words) ?? (isHeat ? 'temperature' : undefined);
  if (quantity === undefined) return ignored;
  const rest = withoutQuantity(words, quantity);
  const unit = headingUnit(heading, quantity);
  return {
    as: 'value',
    quantity,
    ...(rest !== '' && { probe: idFromName(rest) }),
    ...(unit !== undefined && { unit }),
  };
}

/** A unit as it stands in a cell, as checkedValue names it. @example unitName('°C') // => 'C' */
export function unitName(text: string): string {
  const bare = text.replace(/^[°º]\s*|^deg(rees)?\s*/i, '').trim();
  if (/^(c|cel|celsius)$/i.test(bare)) return 'C';
  if (/^(f|fahrenheit)$/i.test(bare)) return 'F';
  if (/^k(elvin)?$/i.test(bare)) return 'K';
  if (/^%\s*rh$|^rh$/i.test(bare)) return '%RH';
  if (/^%\s*(of\s+)?vol(ume|\.)?$/i.test(bare)) return '%';
  return bare;
}

/** What a column becomes, for the person to check. */
export function columnWords(meaning: ColumnMeaning, ask: Pick<ImportAsk, 'probe' | 'temperatureUnit'>): Message {
  if (meaning.as === 'ignored') return message('import.column.ignored');
  if (meaning.as === 'field')
    return message('import.column.field', { field: namedField(meaning.field), fieldName: meaning.field });
  const unit = meaning.unit ?? (meaning.quantity === 'temperature' ? ask.temperatureUnit : undefined);
  const unitText =
    unit === undefined ? quantityFacts[meaning.quantity].unit : unit === 'C' || unit === 'F' ? `°${unit}` : unit;
  const quantityPart = message(`quantity.${meaning.quantity}.short`);
  const probeName = meaning.probe ?? ask.probe;
  return probeName === undefined
    ? message('import.column.value-of-row', { quantityPart, unitText })
    : message('import.column.value', { quantityPart, probeName, unitText });
}

type NamedField = MessageParams['import.column.field']['field'];

/** Those that have words of their own; a fact of an entry is called as in our files. */
const namedFields: ReadonlySet<string> = new Set<NamedField>([
  'time',
  'date',
  'clock',
  'site',
  'probe',
  'quantity',
  'value',
  'unit',
  'id',
  'pile',
  'kind',
  'by',
  'note',
  'photos',
  'withdrawn',
]);

const namedField = (field: string): NamedField => (namedFields.has(field) ? (field as NamedField) : 'other');
