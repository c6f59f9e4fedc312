/** Puts a warning on the shelf for a while. */
import { useState } from 'preact/hooks';
import { PickField } from '../../ui/parts/forms.tsx';
import { usePileWords } from './use-pile-words.ts';
import './warnings.css';

const shelfMinutes = ['30', '120', '480', '1440', '4320'] as const;

export function Shelve({ busy, onShelve }: { readonly busy: boolean; readonly onShelve: (minutes: number) => void }) {
  const [isOpen, setIsOpen] = useState(false);
  const [minutes, setMinutes] = useState<(typeof shelfMinutes)[number]>('120');
  const { text } = usePileWords();
  const choices = shelfMinutes.map((one) => {
    const length = one === '4320' ? 'other' : one;
    return [one, text('page-pile.shelve.length', { minutes: length })] as const;
  });
  if (!isOpen) {
    return (
      <button type="button" aria-expanded={false} onClick={() => setIsOpen(true)}>
        {text('page-pile.shelve.open')}
      </button>
    );
  }
  return (
    <div class="shelve">
      <PickField label={text('page-pile.shelve.for')} value={minutes} choices={choices} onValue={setMinutes} />
      <button type="button" disabled={busy} onClick={() => onShelve(Number(minutes))}>
        {text('page-pile.shelve')}
      </button>
      <button type="button" class="plain" onClick={() => setIsOpen(false)}>
        {text('page-pile.cancel')}
      </button>
    </div>
  );
}
