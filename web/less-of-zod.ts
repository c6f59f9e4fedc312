/**
 * Pages check what comes by schemas, never describe a schema to others, and say what is wrong in words of their own: what zod brings along to
 * write JSON Schema, and its English, stay out of their script (an eighth of the first page's). The server has all of it.
 */
import type { Plugin } from 'vite';

export function lessOfZod(): Plugin {
  return {
    name: 'less-of-zod',
    transform: {
      filter: { id: /\/zod\/v4\/(classic\/schemas|locales\/en)\.js$/ },
      handler: (code, id) => ({ code: id.endsWith('en.js') ? shortWords : stripped(code), map: null }),
    },
  };
}

/** What `shared/messages/field-fault.ts` reads of zod's own words, which nobody else does. */
const shortWords = `export default () => ({
  localeError: ({ code, input }) =>
    code === 'invalid_type' && input === undefined ? 'Invalid: received undefined' : 'Invalid',
});`;

/** Line by line: each statement to leave out stands on one. */
function stripped(code: string): string {
  return code
    .split('\n')
    .filter((line) => !line.includes('_zod.processJSONSchema = '))
    .map((line) =>
      line
        .replace('createToJSONSchemaMethod(this, {})(params)', 'undefined')
        .replace('createStandardJSONSchemaMethod(this, "input")', 'undefined')
        .replace('createStandardJSONSchemaMethod(this, "output")', 'undefined')
        // What a schema says of its own bounds, which no page asks.
        .replace('processors.aggregateChecks(inst)', '({})'),
    )
    .join('\n');
}
