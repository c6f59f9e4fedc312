/** A board that wakes, runs its sketch and sleeps; it keeps its flash, and its clock while it has power. */

/** What it finds when it wakes. */
export interface Waking {
  readonly worldMs: number;
  readonly hasNetwork: boolean;
  readonly hasTimeServer: boolean;
  readonly chipC: number | null;
  /** By pin. */
  readonly pinsV: Readonly<Record<number, number>>;
  /** After so many calls of its socket the network goes away; -1 for never. */
  readonly mayAskBroker: number;
}

export interface Woken {
  /** What lies in its flash now. */
  readonly kept: string;
  readonly boardMs: number;
  readonly awakeMs: number;
}

export interface Board {
  wake(waking: Waking): Promise<Woken>;
  /** @param cut Whether that happened while a reading was being written. */
  losePower(cut?: boolean): void;
  /** A kept reading, as it stands in the flash. */
  lineOf(atS: number, temperatureC: string): string;
  fill(kept: string): void;
}
