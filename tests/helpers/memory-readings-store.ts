/** A readings store in memory whose append can be held back or made to fail. */
import { StoreError } from '../../shared/errors.ts';
import type { Reading } from '../../shared/reading.ts';
import { watermarkStepMs } from '../../shared/store/readings/tiers.ts';
import { type AppendResult, appended, type ReadingsStore } from '../../shared/store/readings-store.ts';

export interface MemoryReadingsStore extends ReadingsStore {
  readonly kept: Map<string, Reading>;
  /** Sizes of the batches that were kept. */
  readonly batches: number[];
  /** From now on append waits until `letGo`. */
  hold(): void;
  letGo(): void;
  /** Whether an append waits now. */
  holding(): boolean;
  /** From now on append fails with this, until called with undefined. */
  failWith(message: string | undefined): void;
}

export function memoryReadingsStore(): MemoryReadingsStore {
  const kept = new Map<string, Reading>();
  const batches: number[] = [];
  let gate: { promise: Promise<void>; open: () => void } | undefined;
  let waiting = 0;
  let failure: string | undefined;
  let watermarkMs = 0;

  function keep(readings: readonly Reading[]): AppendResult {
    const outcomes = new Uint8Array(readings.length);
    const counts = {
      [appended.new]: 0,
      [appended.duplicate]: 0,
      [appended.conflict]: 0,
      [appended.beforeWatermark]: 0,
    };
    for (const [index, reading] of readings.entries()) {
      const identity = `${reading.site}/${reading.probe}/${reading.quantity}@${reading.atMs}`;
      const before = kept.get(identity);
      const outcome = outcomeOf(reading, before);
      if (outcome === appended.new) kept.set(identity, reading);
      outcomes[index] = outcome;
      counts[outcome] += 1;
    }
    batches.push(readings.length);
    return {
      outcomes,
      newCount: counts[appended.new],
      duplicateCount: counts[appended.duplicate],
      conflictCount: counts[appended.conflict],
      beforeWatermarkCount: counts[appended.beforeWatermark],
    };
  }

  function outcomeOf(reading: Reading, before: Reading | undefined) {
    if (reading.atMs < watermarkMs) return appended.beforeWatermark;
    if (before === undefined) return appended.new;
    return before.value === reading.value ? appended.duplicate : appended.conflict;
  }

  const notAsked = async (): Promise<never> => {
    throw new Error('this test store does not answer that');
  };

  return {
    kept,
    batches,
    hold() {
      let open = () => {};
      const promise = new Promise<void>((resolve) => {
        open = resolve;
      });
      gate = { promise, open };
    },
    letGo() {
      gate?.open();
      gate = undefined;
    },
    holding: () => waiting > 0,
    failWith(message) {
      failure = message;
    },
    async append(readings) {
      if (gate !== undefined) {
        waiting += 1;
        await gate.promise;
        waiting -= 1;
      }
      if (failure !== undefined) throw new StoreError(failure);
      return keep(readings);
    },
    async lasts() {
      const lasts = new Map<string, Reading & { firstAtMs: number }>();
      for (const reading of kept.values()) {
        const series = `${reading.site}/${reading.probe}/${reading.quantity}`;
        const known = lasts.get(series);
        const firstAtMs = Math.min(reading.atMs, known?.firstAtMs ?? Number.POSITIVE_INFINITY);
        lasts.set(series, { ...(known !== undefined && known.atMs > reading.atMs ? known : reading), firstAtMs });
      }
      return [...lasts.values()];
    },
    async size() {
      return { rows: kept.size, bytes: 0 };
    },
    async check() {},
    async close() {},
    async downsample(beforeMs) {
      watermarkMs = Math.max(watermarkMs, Math.floor(beforeMs / watermarkStepMs) * watermarkStepMs);
      const downsampled = [...kept].filter(([, reading]) => reading.atMs < watermarkMs);
      for (const [identity] of downsampled) kept.delete(identity);
      return { removed: downsampled.length, done: true };
    },
    async forget(probes) {
      const gone = [...kept].filter(([, one]) =>
        probes.some(({ site, probe }) => one.site === site && one.probe === probe),
      );
      for (const [identity] of gone) kept.delete(identity);
      return { removed: gone.length, done: true };
    },
    async rawFrom() {
      return watermarkMs;
    },
    async watermark() {
      return watermarkMs;
    },
    weigh: notAsked,
    takeDownsampled: notAsked,
    buckets: notAsked,
    rows: notAsked,
  };
}
