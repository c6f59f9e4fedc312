import fc from 'fast-check';
import { expect, test } from 'vitest';
import { readTemplate, templateValue } from '../../../ingest/devices/value-template.ts';

const payload = '{"t":"41.56","a":[{"t":3},4],"b":{"c":{"d":5}},"odd name":6,"no":null}';
const result = (template: string, text = payload) => {
  const read = readTemplate(template);
  return read === undefined
    ? 'not read'
    : templateValue(read, text, text.startsWith('{') ? JSON.parse(text) : undefined);
};

test.each<[string, unknown]>([
  ['{{ value_json.t }}', '41.56'],
  ['{{value_json.t}}', '41.56'],
  ['{{ value_json.t | float }}', '41.56'],
  ['{{ value_json.t | float(0) | round(1) }}', 41.6],
  ['{{ value_json.t|round }}', 42],
  ['{{ value_json.t | int }}', 41],
  ['{{ value_json["t"] | is_defined }}', '41.56'],
  ["{{ value_json['odd name'] }}", 6],
  ['{{ value_json.a[0].t }}', 3],
  ['{{ value_json.a[1] }}', 4],
  ['{{ value_json.b.c.d }}', 5],
  ['{{ value_json.nothing }}', undefined],
  ['{{ value_json.a[9] }}', undefined],
  ['{{ value_json.t.length }}', undefined],
  ['{{ value_json.__proto__ }}', undefined],
  ['{{ value_json.constructor.name }}', undefined],
  ['{{ value_json.no }}', null],
])('%s gives %j', (template, expected) => {
  expect(result(template)).toEqual(expected);
});

test('{{ value }} gives the payload', () => {
  expect([result('{{ value }}', '41.5'), result('{{ value | round(0) }}', '41.5')]).toEqual(['41.5', 42]);
});

test.each([
  '{{ value_json.t * 1.8 + 32 }}',
  '{{ value_json.t if value_json.t is defined else 0 }}',
  '{% if value_json.t %}{{ value_json.t }}{% endif %}',
  '{{ states("sensor.x") }}',
  '{{ value_json.t | replace("a","b") }}',
  '{{ value_json.t | round(}}',
  '{{ value_json["a\\"] }}',
  '{{ value_json[t] }}',
  '{{ value_json. t }} x',
  '{{ value_json.t',
  'value_json.t',
  '',
  `{{ value_json${'.a'.repeat(20)} }}`,
  `{{ value_json.${'a'.repeat(300)} }}`,
])('%s is none of the simple ones', (template) => {
  expect(readTemplate(template)).toBeUndefined();
});

test('whatever a template holds, reading it throws nothing and gives only what stands in the message', () => {
  const piece = fc.constantFrom(
    '{{',
    '}}',
    'value',
    'value_json',
    '.',
    '[',
    ']',
    "'",
    '"',
    '|',
    'round',
    '(',
    ')',
    '1',
    ' ',
    'a',
    '__proto__',
    'constructor',
  );
  fc.assert(
    fc.property(fc.array(fc.oneof(piece, fc.string({ maxLength: 3 })), { maxLength: 20 }), (parts) => {
      const read = readTemplate(parts.join(''));
      if (read === undefined) return;
      const found = templateValue(read, 'text', { a: { a: 1 }, 1: 'one' });
      expect(['undefined', 'string', 'number', 'object']).toContain(typeof found);
    }),
    { seed: 20261129, numRuns: 5_000 },
  );
});
