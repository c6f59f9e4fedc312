/** A link or secret that is shown this once. */
import { CopyText } from '../../ui/parts/copy-text.tsx';
import './people.css';
import { usePeopleWords } from './use-people-words.ts';

interface MadeOnceProps {
  readonly title: string;
  readonly says: string;
  readonly text: string;
  /** For the button that copies it. */
  readonly copyLabel: string;
  readonly onDone: () => void;
}

export function MadeOnce({ title, says, text, copyLabel, onDone }: MadeOnceProps) {
  const words = usePeopleWords();
  return (
    <section class="made-once" role="status" aria-label={title}>
      <h3>{title}</h3>
      <p>{says}</p>
      <CopyText text={text} label={copyLabel} />
      <p>
        <button type="button" onClick={onDone}>
          {words.text('page-people.copied')}
        </button>
      </p>
    </section>
  );
}
