import type { EntryKind } from '../../../../shared/entry.ts';
import { useJournalWords } from '../journal/use-journal-words.ts';
import { usePileWords } from './use-pile-words.ts';
import './thumb-bar.css';

const often: readonly EntryKind[] = ['measured', 'turned', 'watered'];

/** What is written down most at a pile, under the thumb of whoever stands there with a phone. */
export function ThumbBar({ pileId }: { readonly pileId: string }) {
  const { text } = usePileWords();
  const journal = useJournalWords();
  return (
    <nav class="thumb-bar" aria-label={text('page-pile.write')}>
      {often.map((kind) => (
        <a key={kind} href={`/piles/${pileId}/journal?write=${kind}`}>
          {journal.text('page-journal.kind', { kind })}
        </a>
      ))}
      <a href="#journal">{text('page-pile.write.more')}</a>
    </nav>
  );
}
