/** What is wrong with one field, from what its zod schema found: a schema's own words name no unit, and are English whoever reads. */
import { type Message, type MessageCode, message, verbatim } from './message.ts';

/** What is used of an issue of zod; fastify's own form of one is brought to it (`server/http/problem.ts`). */
export interface FieldIssue {
  readonly code?: string | undefined;
  readonly path: readonly PropertyKey[];
  /** Of a schema that has more to say than its checks: the code of a message (`field.…`), whose parameters are those of the issue. */
  readonly message: string;
  readonly params?: object | undefined;
  readonly expected?: unknown;
  readonly origin?: unknown;
  readonly minimum?: unknown;
  readonly maximum?: unknown;
  readonly inclusive?: unknown;
  readonly exact?: unknown;
  readonly divisor?: unknown;
  readonly keys?: unknown;
  readonly values?: unknown;
  readonly format?: unknown;
  readonly prefix?: unknown;
  readonly errors?: unknown;
  readonly options?: unknown;
}

/** @example fieldFault({ code: 'too_small', origin: 'number', minimum: 0.02, inclusive: true, path: ['depthM'], message }) // "Must be at least 2 cm." */
export function fieldFault(issue: FieldIssue): Message {
  if (issue.message.startsWith('field.'))
    return { code: issue.message as MessageCode, params: issue.params ?? {} } as Message;
  if (!inZodsWords.test(issue.message)) return verbatim(issue.message);
  switch (issue.code) {
    case 'invalid_type':
      return / received undefined$/.test(issue.message) ? message('field.missing') : wrongKind(issue);
    case 'too_small':
      return tooSmall(issue);
    case 'too_big':
      return tooBig(issue);
    case 'invalid_value':
      return oneOf(listOf(issue.values));
    case 'invalid_format':
      return wrongFormat(issue);
    case 'not_multiple_of':
      return Number(issue.divisor) === 1
        ? message('field.whole-number')
        : message('field.multiple', { stepPart: amountOf(issue.path, Number(issue.divisor)) });
    case 'unrecognized_keys':
      return message('field.unknown-fields', { fieldsText: listOf(issue.keys).map(String).join(', ') });
    case 'invalid_union':
      return ofUnion(issue);
    default:
      return message('field.other-kind');
  }
}

/** A schema without words of its own has zod's, which begin so. */
const inZodsWords = /^(Invalid|Too (small|big)|Unrecognized)/;

const kinds: Readonly<Record<string, MessageCode>> = {
  number: 'field.number',
  int: 'field.whole-number',
  string: 'field.text',
  boolean: 'field.yes-or-no',
  array: 'field.list',
  tuple: 'field.list',
  object: 'field.object',
  record: 'field.object',
  null: 'field.nothing',
};

function wrongKind({ expected }: FieldIssue): Message {
  return { code: kinds[String(expected)] ?? 'field.other-kind', params: {} } as Message;
}

function tooSmall({ origin, minimum, inclusive, exact, path }: FieldIssue): Message {
  const least = Number(minimum);
  if (exact === true) return exactly(origin, least);
  if (origin === 'string')
    return least === 1 ? message('field.empty') : message('field.at-least-characters', { leastCount: least });
  if (isOfItems(origin)) return message('field.at-least-items', { leastCount: least });
  const limitPart = amountOf(path, least);
  return inclusive === false ? message('field.more-than', { limitPart }) : message('field.at-least', { limitPart });
}

function tooBig({ origin, maximum, inclusive, exact, path }: FieldIssue): Message {
  const most = Number(maximum);
  if (exact === true) return exactly(origin, most);
  if (origin === 'string') return message('field.at-most-characters', { mostCount: most });
  if (isOfItems(origin)) return message('field.at-most-items', { mostCount: most });
  const limitPart = amountOf(path, most);
  return inclusive === false ? message('field.less-than', { limitPart }) : message('field.at-most', { limitPart });
}

const isOfItems = (origin: unknown): boolean => origin === 'array' || origin === 'set';

/** Only texts and lists have a length that must be just so. */
function exactly(origin: unknown, exactCount: number): Message {
  return message(origin === 'string' ? 'field.exact-characters' : 'field.exact-items', { exactCount });
}

function oneOf(values: readonly unknown[]): Message {
  const [only] = values;
  return values.length === 1
    ? message('field.only', { choiceText: String(only) })
    : message('field.one-of', { choicesText: values.map(String).join(', ') });
}

function wrongFormat({ format, prefix }: FieldIssue): Message {
  if (format === 'email') return message('field.format.email');
  if (format === 'url') return message('field.format.url');
  if (format === 'starts_with') return message('field.format.starts-with', { startText: String(prefix) });
  return message('field.format');
}

/** The one form that was meant, as all others want something else altogether ("null", for one); else that it is none. */
function ofUnion({ errors, options, path }: FieldIssue): Message {
  if (Array.isArray(options)) return oneOf(options);
  const meant = listOf(errors)
    .map((issues) => listOf(issues) as readonly FieldIssue[])
    .filter((issues) => issues.some(({ code, path: within }) => code !== 'invalid_type' || within.length > 0));
  const [issue] = meant[0] ?? [];
  return meant.length === 1 && issue
    ? fieldFault({ ...issue, path: [...path, ...issue.path] })
    : message('field.no-such-form');
}

const listOf = (value: unknown): readonly unknown[] => (Array.isArray(value) ? value : []);

type ToAmount = (value: { readonly value: number; readonly figures: number }, plain: number) => Message;

/** What a number is of, by the end of its field's name. Longest endings first: "rainMm" is no length in m. */
const amounts: readonly (readonly [RegExp, ToAmount])[] = [
  [/KgM3$/, (valueKgM3) => message('field.amount.kg-m3', { valueKgM3 })],
  [/KgM2$/, (valueKgM2) => message('field.amount.kg-m2', { valueKgM2 })],
  [/M2$/, (valueM2) => message('field.amount.m2', { valueM2 })],
  [/Mm$/, (valueMm) => message('field.amount.mm', { valueMm })],
  [/Ml$/, (valueMl) => message('field.amount.ml', { valueMl })],
  [/Kg$/, (valueKg) => message('field.amount.kg', { valueKg })],
  [/(offset|delta)C$|[a-z]K$/i, (_, valueK) => message('field.amount.k', { valueK })],
  [/C$/, (_, valueC) => message('field.amount.c', { valueC })],
  [/L$/, (valueL) => message('field.amount.litres', { valueL })],
  [/[a-z]G$/, (_, valueG) => message('field.amount.g', { valueG })],
  [
    /depth(Max|Min)?M$/i,
    ({ value, figures }) => message('field.amount.cm', { valueCm: { value: 100 * value, figures } }),
  ],
  [/[a-z]M$/, (valueM) => message('field.amount.m', { valueM })],
  [/Pct$/, (_, valuePct) => message('field.amount.pct', { valuePct })],
  [/(Frac|Share)$/, (valueShare) => message('field.amount.share', { valueShare })],
  [/[a-z]H$|[hH]ours$/, (_, valueHours) => message('field.amount.hours', { valueHours })],
];

/** Limits are round in their own unit; in another, four figures are as many as anybody reads. Whole ones are never cut. */
const figures = 4;

function amountOf(path: readonly PropertyKey[], plain: number): Message {
  const name = String(path.findLast((part) => typeof part === 'string' && !/^\d+$/.test(part)) ?? '');
  const value = { value: plain, figures };
  const of = amounts.find(([ending]) => ending.test(name))?.[1];
  return of?.(value, plain) ?? message('field.amount.number', { valueRatio: value });
}
