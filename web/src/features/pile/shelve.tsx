/** Puts a warning on the shelf for a while. */
import { useState } from 'preact/hooks';
import { PickField } from '../../ui/parts/forms.tsx';
import './warnings.css';

const shelfMinutes = [
  ['30', '30 minutes'],
  ['120', '2 hours'],
  ['480', '8 hours'],
  ['1440', '1 day'],
  ['4320', '3 days'],
] as const;

export function Shelve({ busy, onShelve }: { readonly busy: boolean; readonly onShelve: (minutes: number) => void }) {
  const [isOpen, setIsOpen] = useState(false);
  const [minutes, setMinutes] = useState<(typeof shelfMinutes)[number][0]>('120');
  if (!isOpen) {
    return (
      <button type="button" aria-expanded={false} onClick={() => setIsOpen(true)}>
        Shelve…
      </button>
    );
  }
  return (
    <div class="shelve">
      <PickField label="Shelve for" value={minutes} choices={shelfMinutes} onValue={setMinutes} />
      <button type="button" disabled={busy} onClick={() => onShelve(Number(minutes))}>
        Shelve
      </button>
      <button type="button" class="plain" onClick={() => setIsOpen(false)}>
        Cancel
      </button>
    </div>
  );
}
