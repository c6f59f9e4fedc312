/** What a parameter can be, apart from a code and its own parameters. */

/** [°C]; with decimals where their count is part of what is said ("at 50 °C" of a core at 50.2 would puzzle). */
export type Temperature = number | { readonly valueC: number; readonly decimals: 0 | 1 };

/** Between two temperatures [K]; with decimals where their count is part of what is said. */
export type Difference = number | { readonly valueK: number; readonly decimals: 0 | 1 };

/** Of anything that is shown in figures (`…L`, `…Kg`, `…Ratio`): three of them, or as many as are part of what is said. */
export type Amount = number | { readonly value: number; readonly figures: number };

/** Another message in its place; made by `message()`, whose types would lead back to here. */
export interface Part {
  readonly code: string;
  readonly params: object;
}

/** What a `<tag>` of a page's text is put into: a link, for one. */
export type Tag = (inner: never) => unknown;

export type NoParams = Record<never, never>;
