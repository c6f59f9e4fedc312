/**
 * A pile as a device of a home automation hub: what it is to read out of the pile's state. Keys are those of device
 * discovery by MQTT (home-assistant.io/integrations/mqtt, sensor.mqtt and button.mqtt).
 */

import { type Message, message } from '../../shared/messages/message.ts';
import { plainEnglish } from '../../shared/messages/render.ts';
import { type Position, positions } from '../../shared/names.ts';
import { acknowledgeTopic, hubDeviceId, stateTopic } from '../../shared/published-topics.ts';
import type { PileRecord } from '../../shared/store/journal.ts';
import { severities } from '../../shared/warning.ts';
import { availableFor, beginningOf, fieldOf, moisturePct, pressedNow, temperatureAt } from './hub-templates.ts';

export interface HubDeviceParts {
  readonly root: string;
  readonly version: string;
  /** Of these pages; undefined where they have none beyond this machine. */
  readonly publicUrl: string | undefined;
}

export interface OfferedPile {
  readonly pile: Pick<PileRecord, 'id' | 'siteId' | 'name'>;
  /** Places of which a temperature is shown. */
  readonly places: readonly Position[];
  readonly mayAcknowledge: boolean;
}

type Component = Readonly<Record<string, string | number | boolean | readonly string[]>>;

/** States are said again every ten minutes; after three of those the hub takes it that nobody says them any more. */
const goneAfterS = 1_800;
/** A hub keeps no longer state of an entity than this (its documentation of states; from memory). */
const longestState = 255;

/** @param withdrawn Parts that it had before: named without anything else, a hub removes them. */
export function hubDevice(parts: HubDeviceParts, offered: OfferedPile, withdrawn: readonly string[] = []) {
  const { root, version, publicUrl } = parts;
  const { id, siteId, name } = offered.pile;
  const deviceId = hubDeviceId(root, id);
  const components = Object.entries(partsOf(parts, offered)).map(
    ([part, keys]) => [part, { ...keys, unique_id: `${deviceId}-${part}` }] as const,
  );
  const removed = withdrawn.map((part) => [part, { platform: part === 'acknowledge' ? 'button' : 'sensor' }] as const);
  return {
    device: {
      identifiers: [deviceId],
      name,
      ...(publicUrl !== undefined && { configuration_url: `${publicUrl}/piles/${id}` }),
    },
    origin: { name: 'Branhearth', sw_version: version },
    state_topic: stateTopic(root, siteId, id),
    availability_topic: stateTopic(root, siteId, id),
    availability_template: availableFor(goneAfterS),
    components: Object.fromEntries([...components, ...removed]),
  };
}

/** Every part that a pile may have. */
export const allParts: readonly string[] = [
  ...positions.map(partOfPlace),
  'moisture',
  'condition',
  'next',
  'warning',
  'last-heard',
  'acknowledge',
];

export function partsOffered({ places, mayAcknowledge }: OfferedPile): string[] {
  const absent = new Set([
    ...positions.filter((place) => !places.includes(place)).map(partOfPlace),
    ...(mayAcknowledge ? [] : ['acknowledge']),
  ]);
  return allParts.filter((part) => !absent.has(part));
}

function partOfPlace(place: Position): string {
  return `${place}-temperature`;
}

function partsOf({ root }: HubDeviceParts, { pile, places, mayAcknowledge }: OfferedPile): Record<string, Component> {
  const sensor = (name: Message, value_template: string, more: Component = {}) => ({
    platform: 'sensor',
    name: plainEnglish(name),
    value_template,
    expire_after: goneAfterS,
    ...more,
  });
  const temperatures = places.map((place) => {
    const name = message('hub.temperature', { position: place });
    return [partOfPlace(place), sensor(name, temperatureAt(place), celsius)] as const;
  });
  return {
    ...Object.fromEntries(temperatures),
    moisture: sensor(message('hub.moisture'), moisturePct, {
      device_class: 'moisture',
      state_class: 'measurement',
      unit_of_measurement: '%',
    }),
    condition: sensor(message('hub.condition'), beginningOf('condition', longestState)),
    next: sensor(message('hub.next'), beginningOf('next', longestState)),
    warning: sensor(message('hub.warning'), fieldOf('alarm'), {
      device_class: 'enum',
      options: ['calm', ...severities],
    }),
    'last-heard': sensor(message('hub.last-heard'), fieldOf('lastHeardAt'), { device_class: 'timestamp' }),
    ...(mayAcknowledge && {
      acknowledge: {
        platform: 'button',
        name: plainEnglish(message('hub.acknowledge')),
        command_topic: acknowledgeTopic(root, pile.siteId, pile.id),
        command_template: pressedNow,
        qos: 1,
        retain: false,
      },
    }),
  };
}

const celsius: Component = {
  device_class: 'temperature',
  state_class: 'measurement',
  unit_of_measurement: '°C',
  suggested_display_precision: 1,
};
