/** How the batch that lay here last came out: asked as soon as it has ended, before the next one is laid. */
import { useQuery } from '../../data/use-query.ts';
import { getEnded } from './verdict-api.ts';
import { VerdictPart } from './verdict-part.tsx';

export function LastVerdict({ pileId }: { readonly pileId: string }) {
  const { value } = useQuery(`last-batch ${pileId}`, () => getEnded(pileId));
  const last = value?.batches[0];
  return last ? <VerdictPart key={last.id} batch={last} /> : null;
}
