/**
 * web/journal/journal-part.tsx: the journal as a part of the pile's own page: write, and what was written last.
 */
import { useEffect, useRef } from 'preact/hooks';
import { Part } from '../parts/part.tsx';
import { useStore } from '../store.ts';
import { EntryList } from './entry-list.tsx';
import { waiting } from './waiting.ts';
import { WritePanel } from './write-panel.tsx';

interface JournalPartProps {
  readonly pile: { readonly id: string; readonly site: string };
  /** The pile is judged anew after an entry. */
  readonly onChange: () => Promise<unknown>;
}

export function JournalPart({ pile, onChange }: JournalPartProps) {
  const keptCount = useStore(waiting, (now) => now.keptCount);
  const first = useRef(keptCount);
  useEffect(() => {
    if (keptCount !== first.current) void onChange();
  }, [keptCount]);
  return (
    <Part id="journal" title="Journal">
      <WritePanel pileId={pile.id} />
      <EntryList pileId={pile.id} site={pile.site} most={8} onChange={onChange} />
    </Part>
  );
}
