/**
 * Pages check what comes by schemas and never describe a schema to others: what zod brings along to write JSON Schema stays out of
 * their script (about a tenth of the first page's). The server has all of it.
 */
import type { Plugin } from 'vite';

const schemasOfZod = '/zod/v4/classic/schemas.js';

export function withoutJsonSchema(): Plugin {
  return {
    name: 'without-json-schema',
    transform: {
      filter: { id: /\/zod\/v4\/classic\/schemas\.js$/ },
      handler: (code, id) => (id.endsWith(schemasOfZod) ? { code: stripped(code), map: null } : null),
    },
  };
}

/** Line by line: each statement to leave out stands on one. */
function stripped(code: string): string {
  return code
    .split('\n')
    .filter((line) => !line.includes('_zod.processJSONSchema = '))
    .map((line) =>
      line
        .replace('createToJSONSchemaMethod(this, {})(params)', 'undefined')
        .replace('createStandardJSONSchemaMethod(this, "input")', 'undefined')
        .replace('createStandardJSONSchemaMethod(this, "output")', 'undefined'),
    )
    .join('\n');
}
