/** The long names behind the short ones that discovery messages may use, of those keys that matter here. */
import { isObject, type JsonObject } from './family.ts';

const entityKeys: Readonly<Record<string, string>> = {
  avty: 'availability',
  avty_mode: 'availability_mode',
  avty_t: 'availability_topic',
  avty_tpl: 'availability_template',
  cmps: 'components',
  dev: 'device',
  dev_cla: 'device_class',
  ent_cat: 'entity_category',
  exp_aft: 'expire_after',
  obj_id: 'object_id',
  p: 'platform',
  pl_avail: 'payload_available',
  pl_not_avail: 'payload_not_available',
  stat_t: 'state_topic',
  t: 'topic',
  uniq_id: 'unique_id',
  unit_of_meas: 'unit_of_measurement',
  val_tpl: 'value_template',
};
const deviceKeys: Readonly<Record<string, string>> = { cns: 'connections', ids: 'identifiers' };

const mostKeys = 100;

/** With long names, and with the base topic put in where a topic begins or ends with its sign. */
export function expanded(body: JsonObject, base = baseOf(body)): JsonObject {
  return renamed(body, entityKeys, (key, value) =>
    typeof value === 'string' && key.endsWith('topic') ? withBase(value, base) : value,
  );
}

export const expandedDevice = (body: JsonObject): JsonObject => renamed(body, deviceKeys, (_key, value) => value);

export const baseOf = (body: JsonObject): string | undefined => {
  const base = body['~'];
  return typeof base === 'string' ? base : undefined;
};

function renamed(
  body: JsonObject,
  names: Readonly<Record<string, string>>,
  change: (key: string, value: unknown) => unknown,
): JsonObject {
  const entries = Object.keys(body)
    .slice(0, mostKeys)
    .map((short): [string, unknown] => {
      const key = Object.hasOwn(names, short) ? (names[short] ?? short) : short;
      return [key, change(key, body[short])];
    });
  return Object.fromEntries(entries);
}

function withBase(topic: string, base: string | undefined): string {
  if (base === undefined) return topic;
  if (topic.startsWith('~')) return base + topic.slice(1);
  return topic.endsWith('~') ? topic.slice(0, -1) + base : topic;
}

/** Of a list or a single one, the objects. */
export const objectsOf = (found: unknown): JsonObject[] => (Array.isArray(found) ? found : [found]).filter(isObject);
