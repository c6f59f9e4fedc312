/**
 * What a forecast may know of a pile: how it stands and how it has moved. It never looks across a hand on the pile:
 * what was seen before a turn or a watering says nothing of what follows.
 */
export interface PileNow {
  /** The core at the end of each hour from the start [°C]; null where it was not measured. */
  seen(hour: number): number | null;
  /** The hour that has just ended, when that was, and the core then. */
  readonly hour: number;
  readonly atMs: number;
  readonly nowC: number;
  /** The air as the pile feels it [°C]. */
  readonly airC: number;
  readonly depthM: number;
  /** Whether the bed is so thin that its core follows day and night. */
  readonly shallow: boolean;
  readonly soil: boolean;
  /** Hours since a hand was last on the pile. */
  readonly quietH: number;
  readonly limitC: number;
  /** Share of its food that it burns a day, eased over half a day, and that it has burnt so far, by the heat it must have made [-]. */
  readonly workPerDay: number;
  readonly workDone: number;
}

/** A batch is young, and what was done to it fresh, for so long [h], less so from hour to hour; our own choice, no source. */
const youngH = 36;
const freshH = 24;

export const youthOf = ({ hour }: PileNow): number => Math.exp(-(hour + 1) / youngH);
export const freshnessOf = ({ quietH }: PileNow): number => Math.exp(-quietH / freshH);

/** Rise of the core over the last `backH` hours, or since the start [K]; null where that was not measured or a hand came between. */
export function riseSeen({ seen, hour, nowC, quietH }: PileNow, backH: number): number | null {
  if (quietH < backH) return null;
  const before = seen(Math.max(0, hour - backH));
  return before === null ? null : nowC - before;
}
