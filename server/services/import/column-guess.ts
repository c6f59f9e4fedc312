/** What a column means, by its heading. */
import type { ColumnMeaning, ImportAsk } from '../../../shared/contracts/import.ts';
import { positions } from '../../../shared/names.ts';
import { quantityFacts } from '../../../shared/quantity.ts';
import { idFromName } from '../id-from-name.ts';
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

export function sayMeaning(meaning: ColumnMeaning, ask: Pick<ImportAsk, 'probe' | 'temperatureUnit'>): string {
  if (meaning.as === 'ignored') return 'left out';
  if (meaning.as === 'field') return fieldWords[meaning.field] ?? meaning.field;
  const unit = meaning.unit ?? (meaning.quantity === 'temperature' ? ask.temperatureUnit : undefined);
  const shown =
    unit === undefined ? quantityFacts[meaning.quantity].unit : unit === 'C' || unit === 'F' ? `°${unit}` : unit;
  const probe = meaning.probe ?? ask.probe;
  return `${meaning.quantity} of ${probe === undefined ? 'the row’s probe' : `the probe ${probe}`}, in ${shown}`;
}

const fieldWords: Record<string, string> = {
  time: 'when',
  date: 'the day',
  clock: 'the time of day',
  site: 'the site',
  probe: 'the probe',
  quantity: 'what was measured',
  value: 'the value',
  unit: 'the unit of the value',
  id: 'the id of the entry',
  pile: 'the pile',
  kind: 'what kind of entry',
  by: 'who',
  note: 'the note',
  photos: 'photos, where they are here already',
  withdrawn: 'whether it was struck out',
};
