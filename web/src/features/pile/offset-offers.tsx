/** Where a thermometer and a probe disagree: by how much, and one press that puts the probe right. */
import type { HandDifference, PileDetail } from '../../../../shared/contracts/piles.ts';
import { formatQuantity } from '../../../../shared/messages/format.ts';
import { pageOffsetTexts } from '../../../../shared/messages/made/en/page-offset.ts';
import { usePageTexts } from '../../data/live/page-texts.ts';
import { takeDifference } from '../../data/routes.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { capital } from '../../ui/format/words.ts';
import { usePositionNames } from '../../ui/mound/use-position-names.ts';
import { Refusal } from '../../ui/parts/forms.tsx';
import './intervention-offers.css';

interface OffsetOffersProps {
  readonly pile: PileDetail;
  readonly onChange: () => Promise<unknown>;
}

export function OffsetOffers({ pile, onChange }: OffsetOffersProps) {
  return (
    <>
      {pile.handDifferences?.map((difference) => (
        <Offer key={difference.position} pile={pile} onChange={onChange} difference={difference} />
      ))}
    </>
  );
}

function Offer({ pile, onChange, difference }: OffsetOffersProps & { readonly difference: HandDifference }) {
  const { text } = usePageTexts(pageOffsetTexts, formatQuantity);
  const nameOf = usePositionNames();
  const mutation = useMutation();
  const { position, at, handC, probeC, differenceK } = difference;
  const says = {
    positionName: capital(nameOf(position)),
    measuredAtMs: Date.parse(at),
    handC,
    probeC,
    isLow: differenceK > 0,
    byK: Math.abs(differenceK),
  };
  return (
    <div class="offer">
      <p>{text('page-offset.says', says)}</p>
      <p class="hint">{text('page-offset.from-now')}</p>
      <div class="buttons">
        <button
          type="button"
          disabled={mutation.busy}
          onClick={() => mutation.run(() => takeDifference(pile.id, position, at).then(onChange))}
        >
          {text('page-offset.take')}
        </button>
      </div>
      <Refusal error={mutation.error} />
    </div>
  );
}
