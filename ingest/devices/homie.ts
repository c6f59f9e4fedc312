/**
 * Devices that follow the Homie convention, version 5. Units and which properties are settings stand in the device's
 * `$description`; until that came its values are left alone.
 */
import { BoundedMap } from '../../shared/bounded-map.ts';
import { unitNamed } from '../decode/unit-names.ts';
import { readValueName } from '../decode/value-name.ts';
import {
  type DeviceFamily,
  type DeviceMessage,
  type DeviceReport,
  type DeviceValue,
  type FamilyReader,
  type FamilySays,
  isObject,
  type JsonObject,
  objectAt,
  textAt,
} from './family.ts';

export const homie: DeviceFamily = {
  id: 'homie',
  filters: [{ filter: 'homie/5/+/$description' }, { filter: 'homie/5/+/$state' }, { filter: 'homie/5/+/+/+' }],
  open,
};

const rememberedDevices = 1_000;
const mostProperties = 200;

interface Described {
  readonly label: string | undefined;
  /** By node/property, with its unit as it stands. */
  readonly units: ReadonlyMap<string, string | undefined>;
}

function open(): FamilyReader {
  const described = new BoundedMap<Described>(rememberedDevices);

  return {
    read(message) {
      const [, , device = '', node = '', property] = message.levels;
      if (node === '$state') return availability(device, message);
      if (node === '$description') {
        const body = message.json();
        if (body !== undefined) described.set(device, readDescription(body));
        return body === undefined ? undefined : 'ours';
      }
      if (property === undefined) return undefined;
      return read(message, device, `${node}/${property}`, described.get(device));
    },
  };
}

function availability(via: string, { text }: DeviceMessage): FamilySays {
  if (text === 'ready' || text === 'sleeping') return { via, online: true };
  return text === 'disconnected' || text === 'lost' ? { via, online: false } : 'ours';
}

function readDescription(body: JsonObject): Described {
  const units = new Map<string, string | undefined>();
  const nodes = objectAt(body, 'nodes') ?? {};
  for (const node of Object.keys(nodes).slice(0, mostProperties)) {
    const properties = (isObject(nodes[node]) && objectAt(nodes[node], 'properties')) || {};
    for (const name of Object.keys(properties).slice(0, mostProperties)) {
      const property = properties[name];
      if (!isObject(property) || property.settable === true || units.size >= mostProperties) continue;
      if (property.datatype === 'float' || property.datatype === 'integer')
        units.set(`${node}/${name}`, textAt(property, 'unit'));
    }
  }
  return { label: textAt(body, 'name'), units };
}

function read(message: DeviceMessage, device: string, path: string, known: Described | undefined): FamilySays {
  if (known === undefined || !known.units.has(path)) return 'ours';
  const said = known.units.get(path);
  const named = readValueName(said === '%' ? `${path} percent` : path);
  if (named === undefined) return 'ours';
  const unit = unitNamed(named.quantity, said);
  if (unit === undefined) return 'ours';
  const value: DeviceValue = { ...named, unit, found: message.text, where: { place: 'payload' } };
  const report: DeviceReport = { via: device, device, label: known.label, values: [value] };
  return [report];
}
