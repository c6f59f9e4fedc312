/** What is declared once of each quantity; everything that depends on it is derived from it. */

export type Convert = (value: number) => number;

export interface QuantityFacts {
  /** Key under which the value travels in the API; it ends with the unit. */
  readonly key: string;
  readonly unit: string;
  /** Smallest and largest value a probe of any kind can mean; outside it the reading is refused. */
  readonly min: number;
  readonly max: number;
  /** Units it may come in, the likeliest first, and how each becomes ours: SenML's names (RFC 8428 section 12.1, RFC 8798) and our own. */
  readonly from: Readonly<Record<string, Convert>>;
  /** Of the pile or the air beside it, rather than of the probe itself: judged, charted and shown with the pile. */
  readonly isOfPile: boolean;
  readonly shown: Shown;
  /** What headings of files call it beside its name and its key: small letters and figures, words apart by one space. */
  readonly alsoCalled: readonly string[];
  /** Said of its fields in the description of the API. */
  readonly described?: string;
}

/** How pages show it. */
interface Shown {
  readonly decimals: 0 | 1 | 2;
  /** A value beyond these is shown as the nearest of them. */
  readonly within?: readonly [min: number, max: number];
  /** The upright axis of its chart: the sign behind each figure, what it at least reaches down to, and where it ends above. */
  readonly axis?: { readonly sign: string; readonly least?: number; readonly end?: number };
}
