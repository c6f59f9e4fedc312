/** Whether the server can do its work: keep readings, hear probes, judge piles. */
import type { Journal } from '../../shared/store/journal.ts';
import type { ReadingsStore } from '../../shared/store/readings-store.ts';
import type { PileMonitor } from '../monitor/pile-monitor.ts';
import { halfJudgedWords, unjudgedWords } from '../monitor/troubles-words.ts';

export interface UnwellParts {
  readonly readings: Pick<ReadingsStore, 'check'>;
  readonly journal: Pick<Journal, 'check'>;
  readonly watch: Pick<PileMonitor, 'sinceRoundMs' | 'all' | 'troubles'>;
  readonly broker: () => { readonly state: string; readonly detail: string };
}

/** Judging that has not gone round for so long stands still. */
const standstillMs = 60_000;

/** @returns Why not, to stand after "as"; undefined while all is well. */
export async function systemUnwell({ readings, journal, watch, broker }: UnwellParts): Promise<string | undefined> {
  for (const [name, store] of [
    ['readings', readings],
    ['journal', journal],
  ] as const) {
    try {
      await store.check();
    } catch (error) {
      return `the ${name} cannot be written: ${error instanceof Error ? error.message : error}`;
    }
  }
  const { state, detail } = broker();
  if (state === 'down') return `no readings come in: ${detail}`;
  if (watch.sinceRoundMs() > standstillMs) return 'judging stands still';
  const { length: count } = watch.all();
  const troubles = watch.troubles();
  const unkept = troubles.filter(({ code }) => code === 'not-kept');
  return unjudgedWords(troubles, count) ?? halfJudgedWords(unkept, count);
}
