/** A text to be taken over elsewhere, with a button that copies it. */
import { useState } from 'preact/hooks';

interface CopyTextProps {
  readonly text: string;
  /** What it is, for the button. */
  readonly what: string;
}

export function CopyText({ text, what }: CopyTextProps) {
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
      <button type="button" onClick={copy} aria-label={`Copy ${what}`}>
        {copied ? 'Copied' : 'Copy'}
      </button>
    </div>
  );
}
