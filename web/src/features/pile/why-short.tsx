/** Why the page says what it says, in a few lines, each leading on to all of it. */
import type { PileDetail } from '../../../../shared/contracts/piles.ts';
import type { WarningKind } from '../../../../shared/warning.ts';
import { useSay } from '../../data/live/use-say.ts';
import { warningWords } from '../../ui/format/words.ts';
import { Part } from '../../ui/parts/part.tsx';
import { phaseMessage, renderPhase } from './phase-words.ts';
import { usePileWords } from './use-pile-words.ts';
import { whyGroups, whyPath } from './why-facts.ts';

export function WhyShort({ pile }: { readonly pile: PileDetail }) {
  const { text } = usePileWords();
  const say = useSay(renderPhase);
  if (pile.evidence.length === 0) return null;
  const { present, missing, absent } = whyGroups(pile.evidence);
  return (
    <Part id="evidence" title={text('page-pile.why.title')}>
      {pile.batch && <p>{say(phaseMessage(pile.batch))}</p>}
      <KindLine title={text('page-pile.why.seen')} kinds={present} pileId={pile.id} />
      <KindLine title={text('page-pile.why.missing')} kinds={missing} pileId={pile.id} />
      {absent.length > 0 && (
        <p>
          <span class="label">{text('page-pile.why.absent.short')}</span>{' '}
          {absent.map((kind) => warningWords(kind).toLowerCase()).join(', ')}.
        </p>
      )}
      <p class="buttons">
        <a class="button" href={`/piles/${encodeURIComponent(pile.id)}/why`}>
          {text('page-pile.why.all')}
        </a>
      </p>
    </Part>
  );
}

function KindLine({
  title,
  kinds,
  pileId,
}: {
  readonly title: string;
  readonly kinds: readonly WarningKind[];
  readonly pileId: string;
}) {
  if (kinds.length === 0) return null;
  return (
    <p>
      <span class="label">{title}</span>{' '}
      {kinds.map((kind, i) => (
        <span key={kind}>
          {i > 0 && ', '}
          <a href={whyPath(pileId, kind)}>{warningWords(kind).toLowerCase()}</a>
        </span>
      ))}
      .
    </p>
  );
}
