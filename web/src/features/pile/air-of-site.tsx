import type { PileDetail } from '../../../../shared/contracts/piles.ts';
import { useInstallation, useServerNow } from '../../data/live/use-installation.ts';
import { usePileWords } from './use-pile-words.ts';

/** What stands in for the air beside the pile: where it comes from, how old it is and how far off it may be. */
export function AirOfSite({ pile: { siteAir, neighbourAir, positions } }: { readonly pile: PileDetail }) {
  const { text } = usePileWords();
  const nowMs = useServerNow();
  const piles = useInstallation((installation) => installation.piles);
  const agoMs = (at: string) => Math.max(0, nowMs - Date.parse(at));
  if (neighbourAir)
    return (
      <p class="hint">
        {text('page-pile.air.stands-in', {
          pileName: piles?.find(({ id }) => id === neighbourAir.pileId)?.name ?? neighbourAir.pileId,
          airC: neighbourAir.temperatureC,
          agoMs: agoMs(neighbourAir.at),
        })}
      </p>
    );
  if (!siteAir) return null;
  return (
    <p class="hint">
      {text('page-pile.air.foretold', {
        isSilent: positions.air !== undefined,
        airC: siteAir.temperatureC,
        doubtK: siteAir.doubtK,
        sourceText: siteAir.source,
        agoMs: agoMs(siteAir.issuedAt),
      })}
    </p>
  );
}
