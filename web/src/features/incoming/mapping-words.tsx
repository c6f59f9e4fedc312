/** A mapping as a sentence. */
import type { ComponentChildren } from 'preact';
import type { MappedValue, MappingInput } from '../../../../shared/contracts/mappings.ts';
import type { ForeignUnit } from '../../../../shared/quantity.ts';
import { useList } from '../../data/live/use-list.ts';
import { shortName } from '../../ui/format/quantity-words.ts';
import { unitSigns } from '../../ui/format/temperature.ts';
import { placeText } from './mapping-draft.ts';
import { type IncomingWords, useIncomingWords } from './use-incoming-words.ts';

type Words = Pick<IncomingWords, 'text'>;

export function unitName(unit: ForeignUnit, { text }: Words): string {
  if (unit === '/') return text('page-incoming.unit.fraction');
  if (unit === '%RH') return text('page-incoming.unit.humidity');
  return unit === 'C' || unit === 'F' ? unitSigns[unit] : unit;
}

/** Where a value stands, in the names of the message. */
function placeWords(value: MappedValue, { text }: Words): string {
  const place = placeText(value);
  return value.each !== undefined && value.only === undefined
    ? text('page-incoming.mappings.each', { placeText: place })
    : place;
}

const mono = (inner: ComponentChildren) => <code>{inner}</code>;

export function MappingSentence({ mapping }: { readonly mapping: MappingInput }) {
  const words = useIncomingWords();
  const { text, rich } = words;
  const list = useList();
  const { filter, values, timePointer, timeZone, availability } = mapping;
  if (values.length === 0) return <>{rich('page-incoming.mappings.ignored', { topicText: filter, mono })}</>;
  const said = values.map((value) =>
    text('page-incoming.mappings.value', {
      quantityName: shortName(value.quantity),
      probeName: value.probe ?? mapping.probe,
      unitText: unitName(value.unit, words),
      isWhole: value.pointer === '' && value.each === undefined,
      placeText: placeWords(value, words),
      isScaled: value.scale !== 1,
      scaleText: String(value.scale),
      isShifted: value.offset !== 0,
      offsetText: String(value.offset),
    }),
  );
  return (
    <>
      {rich('page-incoming.mappings.one', {
        topicText: filter,
        mono,
        valuesText: list(said),
        isTimed: timePointer !== undefined,
        timeText: placeText({ pointer: timePointer ?? '' }),
        isZoned: timeZone !== undefined,
        zoneText: timeZone ?? '',
        hasAvailability: availability !== undefined,
        availabilityText: availability?.filter ?? '',
      })}
    </>
  );
}
