/** A batch's verdict in a line, or that nobody gave one. */
import type { BatchView } from '../../../../shared/contracts/lineage.ts';
import { useSayHeld } from '../journal/say-entry.ts';
import { useVerdictWords } from '../journal/use-verdict-words.ts';
import './verdict.css';

export function VerdictLine({ batch }: { readonly batch: Pick<BatchView, 'id' | 'endedAt' | 'verdict'> }) {
  const { rich } = useVerdictWords();
  const say = useSayHeld();
  const { verdict } = batch;
  if (verdict === null) {
    if (batch.endedAt === null) return null;
    return (
      <p class="verdict-line quiet">
        {rich('page-verdict.none', { link: (inner) => <a href={`/batches/${batch.id}#verdict`}>{inner}</a> })}
      </p>
    );
  }
  return (
    <p class="verdict-line">
      <b>{say(verdict)}</b>
      {verdict.note && <span class="diary-note"> {verdict.note}</span>}
    </p>
  );
}
