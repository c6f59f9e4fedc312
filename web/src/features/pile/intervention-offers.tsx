/** Asks whether what the curves show was somebody's hand; yes writes it into the journal. */
import type { ComponentChildren } from 'preact';
import { z } from 'zod';
import type { PileDetail } from '../../../../shared/contracts/piles.ts';
import { useReader, useServerNow } from '../../data/live/use-installation.ts';
import { addAct } from '../../data/routes.ts';
import { createStore, useStore } from '../../data/store.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { nearTime } from '../../ui/format/local-time.ts';
import { Refusal } from '../../ui/parts/forms.tsx';
import { handKey, type Intervention, offeredHands, withDismissed } from './offered-interventions.ts';
import { usePileWords } from './use-pile-words.ts';
import './intervention-offers.css';

const dismissedKey = 'branhearth.not-so';

/** Storage may be forbidden or hold anything; then it is asked again. */
function recall(): readonly string[] {
  try {
    const kept = z.array(z.string().max(200)).safeParse(JSON.parse(localStorage.getItem(dismissedKey) ?? '[]'));
    return kept.success ? kept.data : [];
  } catch {
    return [];
  }
}

const dismissed = createStore<readonly string[]>(recall());

function dismiss(key: string): void {
  dismissed.set(withDismissed(dismissed.get(), key));
  try {
    localStorage.setItem(dismissedKey, JSON.stringify(dismissed.get()));
  } catch {
    // Asked again after the next load.
  }
}

interface HandOffersProps {
  readonly pile: PileDetail;
  readonly onChange: () => Promise<unknown>;
}

export function HandOffers({ pile, onChange }: HandOffersProps) {
  const noes = useStore(dismissed, (keys) => keys);
  if (!pile.batch) return null;
  return (
    <>
      {offeredHands(pile, noes).map((hand) => (
        <Offer key={handKey(pile.id, hand)} hand={hand} pile={pile} onChange={onChange} />
      ))}
    </>
  );
}

function Offer({ hand, pile, onChange }: HandOffersProps & { readonly hand: Intervention }) {
  const reader = useReader(pile.site);
  const nowMs = useServerNow();
  const mutation = useMutation();
  const { text, rich } = usePileWords(pile.site);
  const timeText = nearTime(Date.parse(hand.at), nowMs, reader);
  const said = { kind: hand.kind === 'turned' ? 'turned' : 'other', timeText } as const;
  const unseen = (inner: ComponentChildren) => <span class="unseen">{inner}</span>;
  return (
    <div class="offer">
      <p>{text('page-pile.hand.asks', said)}</p>
      <div class="buttons">
        <button
          type="button"
          class="primary"
          disabled={mutation.busy}
          onClick={() => mutation.run(() => addAct(pile.id, { kind: hand.kind, at: hand.at }).then(onChange))}
        >
          {rich('page-pile.hand.yes', { ...said, unseen })}
        </button>
        <button type="button" disabled={mutation.busy} onClick={() => dismiss(handKey(pile.id, hand))}>
          {rich('page-pile.hand.no', { ...said, unseen })}
        </button>
      </div>
      <Refusal error={mutation.error} />
    </div>
  );
}
