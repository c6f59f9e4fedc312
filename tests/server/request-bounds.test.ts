/** Whatever a request may hold has a bound in the description: no text, list or map of any length reaches a handler. */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { openNewTestInstallation, type TestInstallation } from '../helpers/open-test-server.ts';

interface Schema {
  readonly type?: string;
  readonly enum?: unknown;
  readonly const?: unknown;
  readonly pattern?: string;
  readonly format?: string;
  readonly maxLength?: number;
  readonly maxItems?: number;
  readonly properties?: Record<string, Schema>;
  readonly propertyNames?: Schema;
  readonly additionalProperties?: boolean | Schema;
  readonly items?: Schema;
  readonly prefixItems?: readonly Schema[];
  readonly anyOf?: readonly Schema[];
  readonly oneOf?: readonly Schema[];
  readonly allOf?: readonly Schema[];
}
interface Operation {
  readonly parameters?: readonly { readonly name: string; readonly schema: Schema }[];
  readonly requestBody?: { readonly content: Record<string, { readonly schema?: Schema }> };
}

let one: TestInstallation;
beforeAll(async () => {
  one = await openNewTestInstallation();
});
afterAll(() => one.closeAndRemove());

/** From end to end, and nothing in it may repeat without a bound. */
const isBounded = (pattern: string) => /^\^.*\$$/.test(pattern) && !/(^|[^\\])([+*]|\{\d+,\})/.test(pattern);

/** Pointers of what has no bound. A list or map may only hold what is bounded itself. */
function unbounded(schema: Schema, at: string): string[] {
  const below = [
    ...Object.entries(schema.properties ?? {}).map(([name, part]) => [part, `${at}/${name}`] as const),
    ...[schema.items].flatMap((part) => (part ? [[part, `${at}/-`] as const] : [])),
    ...[...(schema.prefixItems ?? []), ...(schema.anyOf ?? []), ...(schema.oneOf ?? []), ...(schema.allOf ?? [])].map(
      (part) => [part, at] as const,
    ),
    ...[schema.propertyNames].flatMap((part) => (part ? [[part, `${at}/{name}`] as const] : [])),
    ...(typeof schema.additionalProperties === 'object' && Object.keys(schema.additionalProperties).length > 0
      ? [[schema.additionalProperties, `${at}/{value}`] as const]
      : []),
  ];
  const isFixed = schema.enum !== undefined || schema.const !== undefined;
  const isLong =
    schema.type === 'string' && !isFixed && schema.maxLength === undefined && !isBounded(schema.pattern ?? '');
  const isEndless = schema.type === 'array' && schema.maxItems === undefined && schema.prefixItems === undefined;
  return [...(isLong || isEndless ? [at] : []), ...below.flatMap(([part, pointer]) => unbounded(part, pointer))];
}

test('every text and list of a request has a longest length', async () => {
  const { paths } = (await one.app.inject({ url: '/api/openapi.json' })).json<{
    paths: Record<string, Record<string, Operation>>;
  }>();
  const found = Object.entries(paths).flatMap(([path, methods]) =>
    Object.entries(methods).flatMap(([method, { parameters = [], requestBody }]) => {
      const route = `${method.toUpperCase()} ${path}`;
      const bodies = Object.values(requestBody?.content ?? {}).flatMap(({ schema }) => (schema ? [schema] : []));
      return [
        ...parameters.flatMap(({ name, schema }) => unbounded(schema, `${route} ?${name}`)),
        ...bodies.flatMap((schema) => unbounded(schema, `${route} `)),
      ];
    }),
  );
  expect(found).toEqual([]);
});
