import type { PileDetail } from '../../../../shared/contracts/piles.ts';
import { useServerNow } from '../../data/live/use-installation.ts';
import { usePileWords } from './use-pile-words.ts';

/** What stands in for the air beside the pile: where it comes from, how old it is and how far off it may be. */
export function AirOfSite({ pile: { siteAir, positions } }: { readonly pile: PileDetail }) {
  const { text } = usePileWords();
  const nowMs = useServerNow();
  if (!siteAir) return null;
  return (
    <p class="hint">
      {text('page-pile.air.foretold', {
        isSilent: positions.air !== undefined,
        airC: siteAir.temperatureC,
        doubtK: siteAir.doubtK,
        sourceText: siteAir.source,
        agoMs: Math.max(0, nowMs - Date.parse(siteAir.issuedAt)),
      })}
    </p>
  );
}
