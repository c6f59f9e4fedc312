/** Whether the server can do its work: keep readings, hear probes, judge piles. */
import { type Message, message } from '../../shared/messages/message.ts';
import type { PartHealth } from '../../shared/part-health.ts';
import type { Journal } from '../../shared/store/journal.ts';
import type { ReadingsStore } from '../../shared/store/readings-store.ts';
import type { PileMonitor } from '../monitor/pile-monitor.ts';
import { halfJudged, unjudged } from '../monitor/troubles-words.ts';

export interface UnwellParts {
  readonly readings: Pick<ReadingsStore, 'check'>;
  readonly journal: Pick<Journal, 'check'>;
  readonly watch: Pick<PileMonitor, 'sinceRoundMs' | 'all' | 'troubles'>;
  readonly broker: () => PartHealth<string>;
}

/** Judging that has not gone round for so long stands still. */
const standstillMs = 60_000;

/** @returns Why not, to stand after "as"; undefined while all is well. */
export async function systemUnwell({ readings, journal, watch, broker }: UnwellParts): Promise<Message | undefined> {
  for (const [name, store] of [
    ['readings', readings],
    ['journal', journal],
  ] as const) {
    try {
      await store.check();
    } catch (error) {
      const problemText = error instanceof Error ? error.message : String(error);
      return message(`health.unwell.${name}`, { problemText });
    }
  }
  const { state, messages } = broker();
  if (state === 'down') return message('health.unwell.broker', { detailPart: messages.detail });
  if (watch.sinceRoundMs() > standstillMs) return message('health.unwell.standstill');
  const { length: count } = watch.all();
  const troubles = watch.troubles();
  const unkept = troubles.filter(({ code }) => code === 'not-kept');
  return unjudged(troubles, count) ?? halfJudged(unkept, count);
}
