/** A text with what was looked for made out in it. */
import type { ComponentChildren } from 'preact';
import { stretchesOf } from '../../../../shared/find-words.ts';
import './search.css';

interface MarkedProps {
  readonly text: string;
  readonly words: readonly string[];
}

export function Marked({ text, words }: MarkedProps) {
  const parts: ComponentChildren[] = [];
  let at = 0;
  for (const { from, to } of stretchesOf(text, words)) {
    parts.push(
      text.slice(at, from),
      <mark key={from} class="found-word">
        {text.slice(from, to)}
      </mark>,
    );
    at = to;
  }
  return (
    <>
      {parts}
      {text.slice(at)}
    </>
  );
}
