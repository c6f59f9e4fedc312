/**
 * Values that a JSON Schema of the description allows, and values of which one place is spoilt.
 */
import fc from 'fast-check';

export interface JsonSchema {
  readonly type?: string | readonly string[];
  readonly enum?: readonly unknown[];
  readonly const?: unknown;
  readonly pattern?: string;
  readonly format?: string;
  readonly minLength?: number;
  readonly maxLength?: number;
  readonly minimum?: number;
  readonly maximum?: number;
  readonly exclusiveMinimum?: number;
  readonly exclusiveMaximum?: number;
  readonly minItems?: number;
  readonly maxItems?: number;
  readonly properties?: Readonly<Record<string, JsonSchema>>;
  readonly required?: readonly string[];
  readonly additionalProperties?: boolean | JsonSchema;
  readonly propertyNames?: JsonSchema;
  readonly items?: JsonSchema;
  readonly anyOf?: readonly JsonSchema[];
  readonly oneOf?: readonly JsonSchema[];
  readonly allOf?: readonly JsonSchema[];
}

type Known = Readonly<Record<string, readonly string[]>>;

const mostItems = 3;

/** @param known By the name of a field, ids that there are: what is made at random names nothing. */
export function allowedBy(schema: JsonSchema, known: Known, name = ''): fc.Arbitrary<unknown> {
  if (schema.const !== undefined) return fc.constant(schema.const);
  if (schema.enum !== undefined) return fc.constantFrom(...schema.enum);
  const choices = schema.anyOf ?? schema.oneOf;
  if (choices !== undefined) return fc.oneof(...choices.map((one) => allowedBy(one, known, name)));
  if (schema.allOf !== undefined) {
    return fc
      .tuple(...schema.allOf.map((one) => allowedBy(one, known, name)))
      .map((parts) => Object.assign({}, ...(parts as object[])));
  }
  switch (Array.isArray(schema.type) ? schema.type[0] : schema.type) {
    case 'string':
      return textOf(schema, known[name] ?? []);
    case 'integer':
      return numberOf(schema).map((value) => Math.round(Number(value)));
    case 'number':
      return numberOf(schema);
    case 'boolean':
      return fc.boolean();
    case 'null':
      return fc.constant(null);
    case 'array':
      return fc.array(allowedBy(schema.items ?? {}, known, name.replace(/s$/, '')), {
        minLength: Math.min(schema.minItems ?? 0, mostItems),
        maxLength: Math.min(schema.maxItems ?? mostItems, mostItems),
      });
    case 'object':
      return objectOf(schema, known);
    default:
      return fc.oneof({ arbitrary: instants, weight: 4 }, fc.jsonValue({ maxDepth: 1 }));
  }
}

/** Mostly of the hours just past, as what people write down is. */
const instants = fc
  .oneof(
    { arbitrary: fc.integer({ min: 1, max: 40 * 60 }), weight: 5 },
    fc.integer({ min: -2_000_000, max: 2_000_000 }),
  )
  .map((minutes) => new Date(Date.now() - minutes * 60_000).toISOString());

function textOf({ pattern, format, minLength = 0, maxLength = 40 }: JsonSchema, ids: readonly string[]) {
  const own: fc.Arbitrary<string>[] = [];
  if (format === 'date-time') return instants;
  if (format === 'uri') own.push(fc.webUrl());
  else if (pattern !== undefined) own.push(matching(pattern));
  const limits = { minLength, maxLength: Math.max(minLength, Math.min(maxLength, 40)) };
  if (own.length === 0) own.push(fc.string(limits), instants);
  return ids.length === 0 ? fc.oneof(...own) : fc.oneof({ arbitrary: fc.constantFrom(...ids), weight: 3 }, ...own);
}

/** Not every pattern can be followed by the library. */
function matching(pattern: string): fc.Arbitrary<string> {
  try {
    return fc.stringMatching(new RegExp(pattern, 'u'), { size: 'small' });
  } catch {
    return fc.string({ maxLength: 20 });
  }
}

function numberOf({ minimum, maximum, exclusiveMinimum, exclusiveMaximum }: JsonSchema): fc.Arbitrary<number> {
  const min = minimum ?? exclusiveMinimum ?? -1000;
  const max = maximum ?? exclusiveMaximum ?? Math.max(1000, min + 1000);
  return fc.double({ min, max, noNaN: true, minExcluded: exclusiveMinimum !== undefined && min < max });
}

function objectOf({ properties = {}, required = [], additionalProperties, propertyNames }: JsonSchema, known: Known) {
  const model = Object.fromEntries(
    Object.entries(properties).map(([name, part]) => [name, allowedBy(part, known, name)]),
  );
  const own = fc.record(model, { requiredKeys: Object.keys(model).filter((name) => required.includes(name)) });
  if (typeof additionalProperties !== 'object' || Object.keys(additionalProperties).length === 0) return own;
  const names = allowedBy(propertyNames ?? { type: 'string', maxLength: 20 }, known).map(String);
  return fc
    .tuple(own, fc.dictionary(names, allowedBy(additionalProperties, known), { maxKeys: mostItems }))
    .map(([fixed, more]) => ({ ...more, ...fixed }));
}

const nested = (depth: number): unknown => {
  let value: unknown = 1;
  for (let level = 0; level < depth; level += 1) value = level % 2 === 0 ? [value] : { a: value };
  return value;
};

/** What people, probes and those who mean harm have sent to other programs. */
export const nasty: readonly unknown[] = [
  null,
  true,
  '',
  ' ',
  '\u0000',
  'a\u0000b',
  '\ud800',
  '\u202e\ufeff',
  '𝕊'.repeat(50),
  'x'.repeat(100_000),
  '1e999',
  '../../etc/passwd',
  "'; DROP TABLE pile; --",
  '%00%n%s',
  '=cmd|x',
  0,
  -0,
  -1,
  0.1,
  1e21,
  1e308,
  -1e308,
  Number.MAX_SAFE_INTEGER + 1,
  8_640_000_000_000_001,
  '+275760-09-13T00:00:00.001Z',
  '0000-01-01T00:00:00Z',
  [],
  {},
  [[[[]]]],
  Array.from({ length: 2_000 }, (_, i) => i),
  nested(400),
];

/** Keys that reach behind an object, where a program is careless. JSON carries them as fields of its own. */
const spoilt = ['__proto__', 'constructor', 'prototype', 'toString', 'hasOwnProperty', 'unknown field', ''];

/** The same value with one place of it spoilt: replaced, taken away, or a key beside it. */
export function spoiltFrom(value: fc.Arbitrary<unknown>): fc.Arbitrary<unknown> {
  return fc
    .tuple(
      value,
      fc.nat(),
      fc.constantFrom(...nasty),
      fc.constantFrom('replace', 'remove', 'beside'),
      fc.constantFrom(...spoilt),
    )
    .map(([given, at, with_, how, key]) => {
      const whole = { '': structuredClone(given) } as Record<string, unknown>;
      const places = placesIn(whole);
      const [holder, place] = places[at % places.length] ?? [whole, ''];
      if (how === 'replace') holder[place] = with_;
      else if (how === 'remove' && holder !== whole) delete holder[place];
      else {
        const target = holder[place];
        const beside = typeof target === 'object' && target !== null ? (target as Record<string, unknown>) : holder;
        Object.defineProperty(beside, key, { value: with_, enumerable: true, configurable: true, writable: true });
      }
      return whole[''];
    });
}

function placesIn(holder: Record<string, unknown>): [Record<string, unknown>, string][] {
  return Object.entries(holder).flatMap(([name, value]) => [
    [holder, name] as [Record<string, unknown>, string],
    ...(typeof value === 'object' && value !== null ? placesIn(value as Record<string, unknown>) : []),
  ]);
}
