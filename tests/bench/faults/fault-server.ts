/** What the fault bench asks of a server, and what can be done to it. */
import type { ReadingsStore } from '../../../shared/store/readings-store.ts';
import type { KeepingProbes } from './keeping-probes.ts';

export interface Fault {
  readonly name: string;
  /** Resolves when it is over. A word instead: it cannot be done here, and why. */
  run(probes: KeepingProbes): Promise<void> | string;
}

export interface FaultInstallation {
  readonly name: string;
  readonly mqttUrl: string;
  readonly faults: readonly Fault[];
  /** Where its pages are now. */
  pagesUrl(): string;
  /** Ends its processes in order; the stores stay. */
  stop(): Promise<void>;
  /** Time of the newest reading kept of each probe, by site/probe. */
  kept(): Promise<ReadonlyMap<string, number>>;
  openReadings(): Promise<ReadingsStore>;
  remove(): Promise<void>;
}

/** A minute of the server in a second, so that a warning has stood for its twenty minutes while the bench runs. */
export const serverSpeed = 60;

export const seconds = (s: number) => new Promise<void>((resolve) => setTimeout(resolve, s * 1_000));

export const outOfOrder: Fault = {
  name: 'readings out of order, a third of them twice',
  async run(probes) {
    probes.disorder(true);
    await seconds(6);
    probes.disorder(false);
  },
};
