/** Which part of a long list is shown, and the way to the parts before and after it. */
import './pager.css';

interface PagerProps {
  /** What the list is of, for those who hear the page: "probes in no pile". */
  readonly of: string;
  readonly offset: number;
  readonly limit: number;
  readonly total: number;
  readonly onTurn: (offset: number) => void;
}

export function Pager({ of, offset, limit, total, onTurn }: PagerProps) {
  if (total <= limit) return null;
  const last = Math.min(total, offset + limit);
  return (
    <nav class="pager" aria-label={`Pages of ${of}`}>
      <button type="button" disabled={offset === 0} onClick={() => onTurn(offset - limit)}>
        Back
      </button>
      <span aria-live="polite">{`${offset + 1} to ${last} of ${total}`}</span>
      <button type="button" disabled={last >= total} onClick={() => onTurn(offset + limit)}>
        Next
      </button>
    </nav>
  );
}
