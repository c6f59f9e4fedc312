/** Which part of a long list is shown, and the way to the parts before and after it. */
import { usePartWords } from './use-part-words.ts';
import './pager.css';

interface PagerProps {
  /** For those who hear the page: "Pages of probes in no pile". */
  readonly label: string;
  readonly offset: number;
  readonly limit: number;
  readonly total: number;
  readonly onTurn: (offset: number) => void;
}

export function Pager({ label, offset, limit, total, onTurn }: PagerProps) {
  const { text } = usePartWords();
  if (total <= limit) return null;
  const last = Math.min(total, offset + limit);
  return (
    <nav class="pager" aria-label={label}>
      <button type="button" disabled={offset === 0} onClick={() => onTurn(offset - limit)}>
        {text('page-parts.pager.back')}
      </button>
      <span aria-live="polite">
        {text('page-parts.pager.shown', { fromCount: offset + 1, toCount: last, allCount: total })}
      </span>
      <button type="button" disabled={last >= total} onClick={() => onTurn(offset + limit)}>
        {text('page-parts.pager.next')}
      </button>
    </nav>
  );
}
