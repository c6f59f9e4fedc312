/** Where a value stands in a JSON document. RFC 6901. */
export function pointerOf(path: readonly (string | number)[]): string {
  return path.map((step) => `/${String(step).replaceAll('~', '~0').replaceAll('/', '~1')}`).join('');
}

/** The document of a payload, or undefined when it is not JSON. */
export function documentOf(payload: string): { readonly value: unknown } | undefined {
  try {
    return { value: JSON.parse(payload) as unknown };
  } catch {
    return undefined;
  }
}

/** How many wildcards a topic filter has: each can be named in the probe's name as {1}, {2} ... (MQTT 5, section 4.7). */
export function wildcardCount(filter: string): number {
  return filter.split('/').filter((level) => level === '+' || level === '#').length;
}
