/** Where an onlooker's readings go: nowhere; workers keep them. */
import { type AppendResult, appended, type ReadingsStore } from '../../shared/store/readings-store.ts';

export function onlookersStore(readings: Pick<ReadingsStore, 'lasts'>): Pick<ReadingsStore, 'append' | 'lasts'> {
  return {
    lasts: () => readings.lasts(),
    async append(heard): Promise<AppendResult> {
      const outcomes = new Uint8Array(heard.length).fill(appended.new);
      return { outcomes, newCount: heard.length, duplicateCount: 0, conflictCount: 0, beforeWatermarkCount: 0 };
    },
  };
}
