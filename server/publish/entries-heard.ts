import type { EntryRecord, Journal } from '../../shared/store/journal.ts';

/** What is written of piles, heard where it is kept. */
export class EntriesHeard {
  #listener: (entry: EntryRecord) => void = () => {};

  /** @param listener Must be quick. */
  follow(listener: (entry: EntryRecord) => void): void {
    this.#listener = listener;
  }

  /** The same journal, whose entries are passed on once they are kept. */
  over(journal: Journal): Journal {
    const { entries } = journal;
    return {
      ...journal,
      entries: {
        ...entries,
        add: async (entry) => {
          const kept = await entries.add(entry);
          if (kept === 'kept') this.#listener(entry);
          return kept;
        },
        correct: async (entry, replaces) => {
          const kept = await entries.correct(entry, replaces);
          if (kept === 'kept') this.#listener({ ...entry, version: entry.version + 1 });
          return kept;
        },
      },
    };
  }
}
