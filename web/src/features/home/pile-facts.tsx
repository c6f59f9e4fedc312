import type { PileSummary } from '../../../../shared/contracts/piles.ts';
import { pageHomeTexts } from '../../../../shared/messages/made/en/page-home.ts';
import { usePageTexts } from '../../data/live/page-texts.ts';
import { useServerNow } from '../../data/live/use-installation.ts';
import { ageWords, batchDay } from '../../ui/format/age.ts';
import { isCoreMeasured } from '../pile/is-core-measured.ts';
import { isStageKnown } from '../pile/trouble-line.tsx';

interface PileFactsProps {
  readonly pile: PileSummary;
  /** A last reading younger than this is not named [ms]. */
  readonly namedFromMs?: number;
}

/** Stage, day and phase, and how old what is known of it is. */
export function PileFacts({ pile, namedFromMs = Number.NEGATIVE_INFINITY }: PileFactsProps) {
  const nowMs = useServerNow();
  const { text } = usePageTexts(pageHomeTexts);
  const { batch, stage } = pile;
  const newestMs = Math.max(...Object.values(pile.positions).map((now) => (now?.at ? Date.parse(now.at) : -Infinity)));
  const stand = batch
    ? text('page-home.stage-day', {
        stage,
        dayCount: batchDay(Date.parse(batch.startedAt), nowMs),
        phase: isCoreMeasured(pile) ? batch.phase : 'other',
      })
    : text('page-home.stage', { stage });
  return (
    <p class="facts">
      {isStageKnown(pile) && stand}
      {Number.isFinite(newestMs) &&
        nowMs - newestMs >= namedFromMs &&
        ` ${text('page-home.last-reading', { ageText: ageWords(nowMs - newestMs) })}`}
    </p>
  );
}
