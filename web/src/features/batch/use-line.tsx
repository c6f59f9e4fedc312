/** One use of a batch: where, what on, when, how much, and by whom. */
import type { BatchDetail } from '../../../../shared/contracts/lineage.ts';
import { amountWords, factsLine, targetKey } from './batch-words.ts';
import { useBatchWords } from './use-batch-words.ts';

interface UseLineProps {
  readonly use: BatchDetail['uses'][number];
  readonly site: string;
}

export function UseLine({ use, site }: UseLineProps) {
  const words = useBatchWords(site);
  const { text, rich } = words;
  const { areaM2, rateKgPerM2: rateKgM2 } = use;
  const facts = [
    text('page-batch.used.day', { usedDayMs: Date.parse(use.at) }),
    amountWords(use, words),
    areaM2 === null ? undefined : text('page-batch.used.area', { areaM2 }),
    rateKgM2 === null ? undefined : text('page-batch.used.rate', { rateKgM2 }),
    use.by,
  ];
  return (
    <li>
      <p>
        {rich('page-batch.used', {
          placeName: use.place,
          place: (inner) => <b>{inner}</b>,
          target: targetKey(use.target),
          factsText: factsLine(facts, words),
          facts: (inner) => <span class="origin">{inner}</span>,
        })}
        {use.note && <span class="diary-note">{use.note}</span>}
      </p>
    </li>
  );
}
