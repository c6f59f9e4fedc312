/** A mapping as it is put together by pressing values and levels. */
import type { HeardMessage, MessageValue } from '../../../../shared/contracts/ingest.ts';
import type { MappedValue, MappingInput } from '../../../../shared/contracts/mappings.ts';
import { namesIn } from '../../../../shared/pointer-names.ts';
import { foreignUnitsOf, type Quantity } from '../../../../shared/quantity.ts';

/** Levels of topics that say nothing of which device it is. */
const plainLevels =
  /^(sensors?|state|status|data|telemetry|tele|readings?|values?|json|up|say|event|temperature|humidity)$/i;
const longestName = 60;

/** @param timeZone Of whoever looks, for clocks that say no offset. */
export function draftOf({ topic, site, content }: HeardMessage, usualSite: string, timeZone: string): MappingInput {
  const { time } = content;
  return {
    filter: topic,
    site: site ?? usualSite,
    probe: probeNamed(topic, topic),
    values: [],
    ...(time !== null && { timePointer: time.pointer }),
    ...(time?.isLocal === true && { timeZone }),
  };
}

/** @example probeNamed('shed/+/sensors', 'shed/7/sensors') // => "shed-{1}" */
function probeNamed(filter: string, topic: string): string {
  let wildcards = 0;
  const levels = filter.split('/').map((level, index) => {
    if (level.includes('+') || level === '#') {
      wildcards += 1;
      return level.replace(/[+#]/, `{${wildcards}}`);
    }
    return plainLevels.test(topic.split('/')[index] ?? '') ? '' : level;
  });
  const name = nameText(levels.join('-'));
  return name === '' ? nameText(topic) || 'probe' : name;
}

const nameText = (text: string) =>
  text
    .toLowerCase()
    .replaceAll(/[^a-z0-9_{}]+/g, '-')
    .slice(0, longestName)
    .split('-')
    .filter((part) => part !== '')
    .join('-');

/** One level stands for any, or for itself again. */
export function withLevel(draft: MappingInput, topic: string, index: number): MappingInput {
  const levels = draft.filter.split('/');
  levels[index] = levels[index] === '+' ? (topic.split('/')[index] ?? '') : '+';
  const filter = levels.join('/');
  const before = probeNamed(draft.filter, topic);
  const after = probeNamed(filter, topic);
  const renamed = (name: string) => (name.startsWith(before) ? `${after}${name.slice(before.length)}` : name);
  return {
    ...draft,
    filter,
    probe: renamed(draft.probe),
    values: draft.values.map((value) =>
      value.probe === undefined ? value : { ...value, probe: renamed(value.probe) },
    ),
  };
}

type Placed = Pick<MappedValue, 'pointer' | 'each' | 'only'>;

const isSamePlace = (one: Placed, other: Placed) =>
  one.pointer === other.pointer && one.each === other.each && one.only?.is === other.only?.is;

export const isPressed = (draft: MappingInput, value: MessageValue) =>
  draft.values.some((one) => isSamePlace(one, value));

/** Takes a value in, as what it seems to be, or leaves it out again. */
export function withPressed(draft: MappingInput, value: MessageValue): MappingInput {
  const others = draft.values.filter((one) => !isSamePlace(one, value));
  if (others.length < draft.values.length) return { ...draft, values: others };
  const { pointer, each, only } = value;
  const quantity = value.quantity ?? 'temperature';
  const unit = value.unit ?? firstUnit(quantity);
  const isTaken = others.some((one) => one.quantity === quantity);
  const taken: MappedValue = {
    ...{ pointer, quantity, unit, scale: 1, offset: 0 },
    ...(each !== undefined && { each }),
    ...(only !== undefined && { only }),
    ...(isTaken && { probe: `${draft.probe}-${nameText(only?.is ?? value.path.join('-')) || others.length + 1}` }),
  };
  return { ...draft, values: [...others, taken] };
}

export const firstUnit = (quantity: Quantity): MappedValue['unit'] => foreignUnitsOf(quantity)[0] ?? 'C';

export function withValue(draft: MappingInput, index: number, change: Partial<MappedValue>): MappingInput {
  return { ...draft, values: draft.values.map((value, at) => (at === index ? { ...value, ...change } : value)) };
}

/** @example placeText({ pointer: '/air/t' }) // => "air › t"; "" for the whole message */
export function placeText({ pointer, each = '', only }: Placed): string {
  return [...namesIn(each), ...(only === undefined ? [] : [only.is]), ...namesIn(pointer)].join(' › ');
}
