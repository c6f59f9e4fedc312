/** The journal as a part of the pile's own page: write, and what was written last. */

import type { ComponentChildren } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import type { PileDetail } from '../../../../shared/contracts/piles.ts';
import { useMay } from '../../data/me.ts';
import { useStore } from '../../data/store.ts';
import { May } from '../../ui/parts/only-for.tsx';
import { Part } from '../../ui/parts/part.tsx';
import { EntryList } from './entry-list.tsx';
import { useJournalWords } from './use-journal-words.ts';
import { waiting } from './waiting.ts';
import { WritePanel } from './write-panel.tsx';

interface JournalPartProps {
  readonly pile: PileDetail;
  /** The pile is judged anew after an entry. */
  readonly onChange: () => Promise<unknown>;
  /** What is asked before anything is written. */
  readonly children?: ComponentChildren;
}

export function JournalPart({ pile, onChange, children }: JournalPartProps) {
  const { text } = useJournalWords();
  const mayWrite = useMay('keeper');
  const keptCount = useStore(waiting, (now) => now.keptCount);
  const first = useRef(keptCount);
  useEffect(() => {
    if (keptCount !== first.current) void onChange();
  }, [keptCount]);
  return (
    <Part id="journal" title={text('page-journal.title')}>
      {children}
      {pile.batch && (
        <May to="keeper">
          <WritePanel pileId={pile.id} />
        </May>
      )}
      <EntryList
        pileId={pile.id}
        site={pile.site}
        most={8}
        from={pile.batch?.startedAt}
        seen={pile.acts.length}
        onChange={onChange}
      />
      <ul class="journal-links">
        <li>
          <a href={`/piles/${pile.id}/journal`}>{text('page-journal.whole')}</a>
        </li>
        {pile.batch && (
          <li>
            <a href={`/batches/${pile.batch.id}`}>{text('page-journal.batch', { mayWrite })}</a>
          </li>
        )}
      </ul>
    </Part>
  );
}
