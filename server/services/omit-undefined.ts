/** Leaves out what is undefined, so that "not given" and "undefined" are one. */
export function omitUndefined<T extends object>(given: T | undefined): { [K in keyof T]: Exclude<T[K], undefined> } {
  return Object.fromEntries(Object.entries(given ?? {}).filter(([, value]) => value !== undefined)) as {
    [K in keyof T]: Exclude<T[K], undefined>;
  };
}
