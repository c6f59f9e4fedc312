import { describe, expect, test } from 'vitest';
import { z } from 'zod';
import { fieldFault } from '../../../shared/messages/field-fault.ts';
import { metric, plainReader, type ReaderUnits } from '../../../shared/messages/format.ts';
import { plainSpaces, render } from '../../../shared/messages/render.ts';

const american: ReaderUnits = { temperature: 'F', mass: 'lb', volume: 'gal', length: 'ft' };

function faultsOf(schema: z.ZodType, value: unknown, units = metric): string[] {
  const { error } = schema.safeParse(value);
  return (error?.issues ?? []).map((issue) => plainSpaces(render(fieldFault(issue), plainReader(0, units))));
}

describe('a number out of its bounds is refused with the bound and the unit of its field', () => {
  const number = z.number();
  const rows: [field: string, schema: z.ZodType, given: number, inSi: string, inAmerican: string][] = [
    ['depthM', number.min(0.02), 0.01, 'Must be at least 2 cm.', 'Must be at least 0.7874 in.'],
    ['depthMaxM', number.max(3), 4, 'Must be at most 300 cm.', 'Must be at most 118.1 in.'],
    ['widthM', number.max(3), 4, 'Must be at most 3 m.', 'Must be at most 9.843 ft.'],
    ['massKg', number.positive(), 0, 'Must be more than 0 kg.', 'Must be more than 0 lb.'],
    ['massKg', number.max(1_000_000), 2_000_000, 'Must be at most 1000000 kg.', 'Must be at most 2204623 lb.'],
    ['volumeL', number.min(0.001), 0, 'Must be at least 0.001 L.', 'Must be at least 0.0002642 US gal.'],
    ['measuredMl', number.max(5), 6, 'Must be at most 5 mL.', 'Must be at most 5 mL.'],
    ['temperatureC', number.max(125), 126, 'Must be at most 125 °C.', 'Must be at most 257 °F.'],
    ['temperatureOffsetC', number.max(10), 11, 'Must be at most 10 °C.', 'Must be at most 18 °F.'],
    ['moistureFrac', number.max(0.95), 1, 'Must be at most 95 %.', 'Must be at most 95 %.'],
    ['humidityPct', number.max(100), 101, 'Must be at most 100 %.', 'Must be at most 100 %.'],
    ['rainMm', number.max(500), 501, 'Must be at most 500 mm.', 'Must be at most 19.69 in.'],
    ['wetG', number.max(500), 501, 'Must be at most 500 g.', 'Must be at most 500 g.'],
    ['areaM2', number.max(4), 5, 'Must be at most 4 m².', 'Must be at most 43.06 ft².'],
    ['days', number.min(1), 0, 'Must be at least 1.', 'Must be at least 1.'],
    ['ratio', number.lt(100_000), 100_000, 'Must be less than 100000.', 'Must be less than 100000.'],
  ];
  test.each(rows)('%s', (field, schema, given, inSi, inAmerican) => {
    const whole = z.object({ [field]: schema });
    expect([faultsOf(whole, { [field]: given }), faultsOf(whole, { [field]: given }, american)]).toEqual([
      [inSi],
      [inAmerican],
    ]);
  });
});

test('the unit of a list is that of its field', () => {
  expect(
    faultsOf(z.object({ depthsM: z.array(z.number()), atDepthM: z.array(z.number().max(3)) }), {
      depthsM: [],
      atDepthM: [4],
    }),
  ).toEqual(['Must be at most 300 cm.']);
});

describe('whatever else a field lacks is said as well', () => {
  const rows: [what: string, schema: z.ZodType, given: unknown, said: string][] = [
    ['nothing', z.string(), undefined, 'Must be given.'],
    ['no number', z.number(), 'five', 'Must be a number.'],
    ['not a number', z.number(), Number.NaN, 'Must be a number.'],
    ['no whole number', z.int(), 2.5, 'Must be a whole number.'],
    ['no text', z.string(), 5, 'Must be a text.'],
    ['neither true nor false', z.boolean(), 'yes', 'Must be true or false.'],
    ['no list', z.array(z.string()), 'one', 'Must be a list.'],
    ['no object', z.object({}), 'one', 'Must be an object with named fields.'],
    ['an empty text', z.string().min(1), '', 'Must not be empty.'],
    ['a short text', z.string().min(12), 'short', 'Must have at least 12 characters.'],
    ['a long text', z.string().max(1), 'no', 'Must have at most 1 character.'],
    ['a text of another length', z.string().length(64), 'no', 'Must have exactly 64 characters.'],
    ['an empty list', z.array(z.string()).min(1), [], 'Must name at least one.'],
    ['a long list', z.array(z.string()).max(2), ['a', 'b', 'c'], 'Must name at most 2.'],
    ['none of several', z.enum(['core', 'top']), 'side', 'Must be one of core, top.'],
    ['not the only one', z.literal('core'), 'side', 'Must be core.'],
    ['no e-mail address', z.email(), 'nobody', 'Must be an e-mail address.'],
    ['no address', z.url(), 'nowhere', 'Must be an address such as https://example.org/path.'],
    ['a text of another form', z.string().regex(/^a/), 'b', 'Is not of the form that is wanted here.'],
    ['no multiple', z.number().multipleOf(5), 6, 'Must be a multiple of 5.'],
    ['an unknown field', z.strictObject({}), { colour: 1 }, 'Holds what is not known here: colour. Leave it out.'],
    ['too small, where null may be', z.number().min(3).nullable(), 2, 'Must be at least 3.'],
    [
      'too small, where a word may be',
      z.union([z.literal('none'), z.object({ n: z.number().min(3) })]),
      { n: 2 },
      'Must be at least 3.',
    ],
    ['none of two forms', z.union([z.string(), z.number()]), true, 'Is none of the forms that are understood here.'],
    [
      'an unknown kind',
      z.discriminatedUnion('by', [z.object({ by: z.literal('a') }), z.object({ by: z.literal('b') })]),
      { by: 'c' },
      'Must be one of a, b.',
    ],
    ['what a schema says itself', z.string().regex(/^a/, 'field.season-id'), 'b', 'Must be like 2031-summer.'],
    ['what a schema of another program says', z.string().regex(/^a/, 'Ask for an a.'), 'b', 'Ask for an a.'],
  ];
  test.each(rows)('%s', (_what, schema, given, said) => {
    expect(faultsOf(schema, given)).toEqual([said]);
  });
});
