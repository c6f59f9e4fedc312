/** A button for what cannot be taken back: it asks once more, in its own place. */
import { useState } from 'preact/hooks';
import { useMutation } from '../../data/use-mutation.ts';
import { Refusal } from './forms.tsx';
import { usePartWords } from './use-part-words.ts';
import './sure-button.css';

interface SureButtonProps {
  readonly words: string;
  /** Of what, for whoever hears the page rather than sees it. */
  readonly of?: string;
  /** What it means, with a question mark. */
  readonly asks: string;
  readonly sure: string;
  readonly act: () => Promise<unknown>;
}

export function SureButton({ words, of, asks, sure, act }: SureButtonProps) {
  const { text } = usePartWords();
  const mutation = useMutation();
  const [asking, setAsking] = useState(false);
  if (!asking) {
    return (
      <button type="button" onClick={() => setAsking(true)}>
        {words}
        {of !== undefined && <span class="unseen"> {of}</span>}
      </button>
    );
  }
  return (
    <fieldset class="sure">
      <legend>{asks}</legend>
      <button
        type="button"
        class="grave"
        disabled={mutation.busy}
        onClick={() => void mutation.run(act).then((done) => done && setAsking(false))}
      >
        {sure}
      </button>{' '}
      <button type="button" onClick={() => setAsking(false)}>
        {text('page-parts.no')}
      </button>
      <Refusal error={mutation.error} />
    </fieldset>
  );
}
