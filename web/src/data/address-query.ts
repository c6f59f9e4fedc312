/** What a page was asked to show, as it stands in its address. */

/** What differs from how the page usually is, in the order of that. */
export function unusual<View extends Record<string, string>>(view: View, usual: View): Partial<View> {
  return Object.fromEntries(
    Object.keys(usual).flatMap((key) => (view[key] === usual[key] ? [] : [[key, view[key]]])),
  ) as Partial<View>;
}

/** @returns The path alone where nothing was asked. */
export function addressWith(path: string, asked: Readonly<Record<string, string | undefined>>): string {
  const query = new URLSearchParams();
  for (const [key, value] of Object.entries(asked)) if (value) query.set(key, value);
  const text = query.toString();
  return text === '' ? path : `${path}?${text}`;
}
