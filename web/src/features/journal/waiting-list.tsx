/** Entries that are only on this device yet, and those the server would not take. */
import { instantInputSchema } from '../../../../shared/contracts/time.ts';
import { entryFactsSchema } from '../../../../shared/entry.ts';
import { useReader } from '../../data/live/use-installation.ts';
import { whoWrites } from '../../data/me.ts';
import { useStore } from '../../data/store.ts';
import { dayAndTime, type Reader } from '../../ui/format/local-time.ts';
import { May } from '../../ui/parts/only-for.tsx';
import { SureButton } from '../../ui/parts/sure-button.tsx';
import { isOf, isTakenBack, type WaitingEntry, writerName } from './outbox.ts';
import { useSayEntry } from './say-entry.ts';
import { useJournalWords } from './use-journal-words.ts';
import { takeOver, throwAway, waiting } from './waiting.ts';
import './journal.css';

export function WaitingList({ pileId, site }: { readonly pileId: string; readonly site: string | undefined }) {
  const { text } = useJournalWords();
  const entries = useStore(waiting, (now) => now.entries).filter(
    (one) => one.pileId === pileId && (one.refused !== null || !isTakenBack(one)),
  );
  const reader = useReader(site);
  if (entries.length === 0) return null;
  return (
    <ol class="diary journal-entries waiting-entries" aria-label={text('page-journal.waiting')}>
      {[...entries].reverse().map((one) => (
        <WaitingLine key={one.id} one={one} reader={reader} />
      ))}
    </ol>
  );
}

function WaitingLine({ one, reader }: { readonly one: WaitingEntry; readonly reader: Reader }) {
  const { text } = useJournalWords();
  const sayEntry = useSayEntry();
  const facts = entryFactsSchema.safeParse(one.entry.what);
  const at = instantInputSchema.safeParse(one.entry.at);
  return (
    <li>
      <time>{dayAndTime(at.success ? at.data : one.writtenMs, reader)}</time>
      <div>
        <p>
          <b>{facts.success ? sayEntry(facts.data) : one.entry.what.kind}</b>
          {one.entry.note && <span class="diary-note"> {one.entry.note}</span>}
        </p>
        {one.refused === null ? (
          isOf(one, whoWrites()) ? (
            <p class="waits">{text('page-journal.waiting.here')}</p>
          ) : (
            <OfAnother one={one} />
          )
        ) : (
          <>
            <p class="wrong">
              {text('page-journal.waiting.refused', {
                what: one.refused === '' ? 'silent' : (one.refusedPart ?? 'other'),
                reasonText: one.refused,
              })}
            </p>
            <button type="button" onClick={() => void throwAway(one.id)}>
              {text('page-journal.waiting.drop')}
            </button>
          </>
        )}
      </div>
    </li>
  );
}

/** Somebody else wrote it on this device: it waits for them, or somebody vouches for it. */
function OfAnother({ one }: { readonly one: WaitingEntry }) {
  const { text } = useJournalWords();
  const name = writerName(one);
  return (
    <>
      <p class="waits">
        {name === null
          ? text('page-journal.waiting.nobodys')
          : text('page-journal.waiting.others', { personName: name })}
      </p>
      <div class="buttons">
        <May to="keeper">
          <button type="button" onClick={() => void takeOver(one.id)}>
            {text('page-journal.waiting.take')}
          </button>
        </May>
        <SureButton
          words={text('page-journal.waiting.drop')}
          asks={text('page-journal.waiting.drop.asks')}
          sure={text('page-journal.waiting.drop')}
          act={() => throwAway(one.id)}
        />
      </div>
    </>
  );
}
