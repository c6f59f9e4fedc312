import type { WatchedPile } from '../pile/watched-pile.ts';

/** A pile as it was last seen, by whomever. */
export type SeenPile = Pick<WatchedPile, 'pile' | 'batch' | 'summary'>;

/** Where several processes share a farm: of which sites this one notifies people by the clock. */
export interface NotifyShare {
  /** Asked before each look; null stands for what is of no site, such as a daily summary. */
  ours(): Promise<(siteId: string | null) => boolean>;
  /** Of the whole farm, read when it is needed. */
  everyPile(): Promise<readonly SeenPile[]>;
}
