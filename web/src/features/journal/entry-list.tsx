/** The entries of a pile, newest first, with what still waits on this device before them. */
import { useEffect, useRef, useState } from 'preact/hooks';
import type { Entry } from '../../../../shared/contracts/journal.ts';
import { reasonOf } from '../../data/client.ts';
import { useStore } from '../../data/store.ts';
import { useQuery } from '../../data/use-query.ts';
import { EntryLine } from './entry-line.tsx';
import { getEntries } from './journal-api.ts';
import { useJournalWords } from './use-journal-words.ts';
import { waiting } from './waiting.ts';
import { WaitingList } from './waiting-list.tsx';
import './journal.css';

interface EntryListProps {
  readonly pileId: string;
  readonly site: string | undefined;
  /** Only so many. */
  readonly most?: number;
  /** Only what was written of the time from then on. */
  readonly from?: string | undefined;
  /** Changes when something was written elsewhere. */
  readonly seen?: number;
  /** Called after something was corrected or struck out. */
  readonly onChange?: () => Promise<unknown>;
}

export function EntryList({ pileId, site, most, from, seen, onChange }: EntryListProps) {
  const { text } = useJournalWords();
  const { value, error, refresh } = useQuery(pileId, () => getEntries(pileId));
  const keptCount = useStore(waiting, (now) => now.keptCount);
  const [older, setOlder] = useState<readonly Entry[]>([]);
  const [next, setNext] = useState<string | null>();
  const first = useRef(true);
  useEffect(() => {
    if (!first.current) void refresh();
    first.current = false;
  }, [keptCount, seen]);
  const known = [...(value?.entries ?? []), ...older];
  const shown = known.filter(({ at }) => from === undefined || Date.parse(at) >= Date.parse(from)).slice(0, most);
  const more = next === undefined ? value?.next : next;
  const showOlder = async () => {
    const answer = await getEntries(pileId, more ?? undefined);
    setOlder([...older, ...answer.entries]);
    setNext(answer.next);
  };
  const afterChange = async () => {
    setOlder([]);
    setNext(undefined);
    await Promise.all([refresh(), onChange?.()]);
  };
  return (
    <>
      <WaitingList pileId={pileId} site={site} />
      {error !== undefined && (
        <p class="quiet">{text('page-journal.list.none-shown', { reasonText: reasonOf(error) })}</p>
      )}
      {value && shown.length === 0 && <p class="quiet">{text('page-journal.list.none')}</p>}
      {shown.length > 0 && (
        <ol class="diary journal-entries">
          {shown.map((entry) => (
            <EntryLine key={entry.id} entry={entry} site={site} onChange={afterChange} />
          ))}
        </ol>
      )}
      {most === undefined && more && (
        <button type="button" onClick={() => void showOlder()}>
          {text('page-journal.list.older')}
        </button>
      )}
    </>
  );
}
