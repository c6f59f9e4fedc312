/**
 * Messages by which devices introduce themselves to home automation hubs, on
 * `homeassistant/<component>/[<node>/]<object>/config`: one sensor each, or a whole device. What is no measurement of
 * ours is passed over; a measurement of ours that cannot be read is refused with what stands in the way.
 */

import { ReadingError } from '../../shared/errors.ts';
import { message } from '../../shared/messages/message.ts';
import { isOfPile, type Quantity } from '../../shared/quantity.ts';
import { foundSaid, quoted } from '../decode/decoded.ts';
import { unitNamed } from '../decode/unit-names.ts';
import { readValueName } from '../decode/value-name.ts';
import { baseOf, expanded, expandedDevice, objectsOf } from './discovery-keys.ts';
import { isObject, type JsonObject, objectAt, textAt } from './family.ts';
import { readTemplate, type ValueTemplate } from './value-template.ts';

export interface Discovered {
  readonly stateTopic: string;
  readonly template: ValueTemplate | undefined;
  readonly quantity: Quantity;
  readonly unit: string;
  /** By what stays the same: its first identifier. */
  readonly device: string;
  readonly label: string;
  readonly part: string;
  readonly availability: readonly DiscoveredAvailability[];
  /** Whether all must say that it is there, any, or whoever spoke last. */
  readonly availabilityMode: 'all' | 'any' | 'latest';
  /** After so long without a value it counts as gone. */
  readonly expireMs: number | undefined;
}

export interface DiscoveredAvailability {
  readonly topic: string;
  readonly online: string;
  readonly offline: string;
  readonly template: ValueTemplate | undefined;
}

/** Of one sensor, with or without a node, and of whole devices. */
export const discoveryFilters = ['homeassistant/+/+/config', 'homeassistant/+/+/+/config'] as const;

export interface DiscoveryMessage {
  readonly found: readonly Discovered[];
  readonly refusals: readonly ReadingError[];
}

const mostComponents = 100;
const mostAvailabilities = 8;
const longestTopic = 300;
const longestText = 120;

/** @param levels Of a topic of discovery. @param isOurs Whether no device speaks on a topic. */
export function readDiscovery(
  levels: readonly string[],
  body: JsonObject | undefined,
  isOurs: (topic: string) => boolean,
): DiscoveryMessage {
  if (body === undefined) return { found: [], refusals: [] };
  const whole = expanded(body);
  const fallback = levels.at(-2) ?? '';
  const read =
    levels[1] === 'device'
      ? readComponents(whole, fallback, isOurs)
      : levels[1] === 'sensor'
        ? [readEntity(whole, fallback, isOurs)]
        : [];
  return {
    found: read.filter((one) => one !== undefined && !(one instanceof ReadingError)) as Discovered[],
    refusals: read.filter((one) => one instanceof ReadingError),
  };
}

type Read = Discovered | ReadingError | undefined;

/** What stands beside the components counts for each of them. */
function readComponents(whole: JsonObject, fallback: string, isOurs: (topic: string) => boolean): Read[] {
  const components = objectAt(whole, 'components') ?? {};
  const { components: _, ...shared } = whole;
  return Object.keys(components)
    .slice(0, mostComponents)
    .map((id): Read => {
      const component = components[id];
      if (!isObject(component)) return undefined;
      const own = expanded(component, baseOf(component) ?? baseOf(whole));
      return own.platform === 'sensor' ? readEntity({ ...shared, name: id, ...own }, fallback, isOurs) : undefined;
    });
}

const quantityOfClass: Readonly<Record<string, Quantity>> = {
  temperature: 'temperature',
  humidity: 'humidity',
  moisture: 'moisture',
  carbon_dioxide: 'co2',
  signal_strength: 'rssi',
  voltage: 'battery',
  battery: 'charge',
};
const wordOf: Partial<Record<Quantity, string>> = { battery: '', charge: 'battery percent', rssi: 'rssi' };

function readEntity(entity: JsonObject, fallback: string, isOurs: (topic: string) => boolean): Read {
  const device = expandedDevice(objectAt(entity, 'device') ?? {});
  const label = cut(textAt(device, 'name') ?? textAt(entity, 'name') ?? fallback);
  const measured = measuredOf(entity, label, fallback);
  const stateTopic = topicAt(entity, 'state_topic');
  if (measured === undefined || stateTopic === undefined || isOurs(stateTopic)) return undefined;
  const { quantity, part } = measured;
  const unitText = textAt(entity, 'unit_of_measurement');
  const unit = unitText === undefined ? undefined : unitNamed(quantity, unitText);
  if (unit === undefined) return unknownUnit(quantity, label, unitText);
  const template = templateAt(entity, 'value_template', `${quantity} of ${label}`);
  if (template instanceof ReadingError) return template;
  const expireS = entity.expire_after;
  return {
    stateTopic,
    template,
    quantity,
    unit,
    device: cut(firstText(device.identifiers) ?? textAt(device, 'name') ?? textAt(entity, 'unique_id') ?? fallback),
    label,
    part,
    availability: availabilityOf(entity),
    availabilityMode: modeOf(entity.availability_mode),
    expireMs: typeof expireS === 'number' && expireS > 0 ? Math.min(expireS, 1e7) * 1000 : undefined,
  };
}

/** What it measures, and which sensor of the device it is; undefined for what is a setting or of a chip. */
function measuredOf(
  entity: JsonObject,
  label: string,
  fallback: string,
): { quantity: Quantity; part: string } | undefined {
  const deviceClass = textAt(entity, 'device_class') ?? '';
  const quantity = Object.hasOwn(quantityOfClass, deviceClass) ? quantityOfClass[deviceClass] : undefined;
  const isOfDevice = entity.entity_category === 'diagnostic' || entity.entity_category === 'config';
  if (quantity === undefined || (isOfDevice && isOfPile(quantity))) return undefined;
  // Without a name of its own it is called as its device.
  const name = Object.hasOwn(entity, 'name') ? textAt(entity, 'name') : fallback;
  const own = withoutPrefix(name ?? '', label);
  const named = readValueName(`${own} ${wordOf[quantity] ?? deviceClass.replace('carbon_dioxide', 'co2')}`);
  return named?.quantity === quantity ? { quantity, part: named.part } : undefined;
}

/** Many put the device's name before that of each of its values. */
const withoutPrefix = (name: string, label: string) =>
  name.toLowerCase().startsWith(label.toLowerCase()) ? name.slice(label.length) : name;

function availabilityOf(entity: JsonObject): DiscoveredAvailability[] {
  const single = topicAt(entity, 'availability_topic');
  const base = baseOf(entity);
  const listed = objectsOf(entity.availability).map((one) => expanded(one, base));
  const alone =
    single === undefined ? [] : [{ ...entity, topic: single, value_template: entity.availability_template }];
  return [...listed, ...alone].slice(0, mostAvailabilities).flatMap((one: JsonObject) => {
    const topic = topicAt(one, 'topic');
    const template = templateAt(one, 'value_template', '');
    if (topic === undefined || template instanceof ReadingError) return [];
    const online = textAt(one, 'payload_available') ?? 'online';
    const offline = textAt(one, 'payload_not_available') ?? 'offline';
    return [{ topic, online, offline, template }];
  });
}

function templateAt(entity: JsonObject, key: string, of: string): ValueTemplate | ReadingError | undefined {
  const text = textAt(entity, key);
  if (text === undefined || text === '') return undefined;
  return (
    readTemplate(text) ??
    new ReadingError(
      'unknown-template',
      message('refusal.template', {
        ofText: of,
        exampleText: '{{ value_json.temperature | float }}',
        foundPart: foundSaid(text),
      }),
    )
  );
}

/** One that can be heard by itself. */
function topicAt(entity: JsonObject, key: string): string | undefined {
  const topic = textAt(entity, key);
  if (topic === undefined || topic === '' || topic.length > longestTopic) return undefined;
  return /[+#\0]/.test(topic) || topic.startsWith('$') ? undefined : topic;
}

const modeOf = (mode: unknown) => (mode === 'all' || mode === 'any' ? mode : 'latest');
const cut = (text: string) => text.slice(0, longestText);

function firstText(found: unknown): string | undefined {
  const first: unknown = Array.isArray(found) ? found[0] : found;
  return typeof first === 'string' && first !== '' ? first : undefined;
}

function unknownUnit(quantity: Quantity, label: string, unit: string | undefined): ReadingError {
  return new ReadingError(
    'unknown-unit',
    message('refusal.discovery-unit', {
      quantityName: quantity,
      labelText: quoted(label),
      foundPart: foundSaid(unit),
    }),
  );
}
