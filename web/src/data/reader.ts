/** How times are shown to whoever reads. */
export interface Reader {
  readonly timeZone: string | undefined;
  readonly hour12: boolean;
  /** BCP 47; English when absent. */
  readonly language?: string | undefined;
  /** Midnight of the first day, where days are counted and have no date, as in practice [epoch ms]. */
  readonly dayOneMs?: number;
  /** The year that goes without saying; days of another one are given with theirs. */
  readonly yearNow?: number;
}
