/** A text to be taken over elsewhere, with a button that copies it. */
import { useState } from 'preact/hooks';
import { usePartWords } from './use-part-words.ts';

interface CopyTextProps {
  readonly text: string;
  /** Of the button, for whoever hears the page: what is copied. */
  readonly label: string;
}

export function CopyText({ text, label }: CopyTextProps) {
  const words = usePartWords();
  const [copied, setCopied] = useState(false);
  const copy = async () => {
    try {
      await navigator.clipboard.writeText(text);
      setCopied(true);
    } catch {
      // No clipboard on plain HTTP from another machine: the text can be selected by hand.
      setCopied(false);
    }
  };
  return (
    <div class="copy-line">
      <pre>{text}</pre>
      <button type="button" onClick={copy} aria-label={label}>
        {words.text(copied ? 'page-parts.copied' : 'page-parts.copy')}
      </button>
    </div>
  );
}
