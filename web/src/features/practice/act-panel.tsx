/** What can be done to the pile, each act in one tap, with the caution that goes with it. */
import { useState } from 'preact/hooks';
import type { Say } from '../../../../shared/messages/message.ts';
import { actCautions as handCautions } from '../../../../simulator/practice/cautions.ts';
import type {
  PracticeAct,
  PracticeActKind,
  PracticeScenario,
} from '../../../../simulator/practice/scenarios/practice-scenario.ts';
import { useSay } from '../../data/live/use-say.ts';
import { usePrefs } from '../../data/prefs.ts';
import { actCautions, hottestC, renderCaution } from '../../ui/format/act-caution.ts';
import { sentenceIn } from '../../ui/format/temperature.ts';
import { type Offer, type OfferGroup, offersFor } from './act-offers.ts';
import { toDoWords } from './act-words.ts';
import type { Frame } from './practice-session.ts';
import { doAct } from './run-keeper.ts';
import type { Run } from './run-state.ts';
import './tending.css';

interface HandsProps {
  readonly scenario: PracticeScenario;
  readonly run: Run;
  readonly frame: Frame;
}

const groupTitles: Record<OfferGroup['id'], string> = {
  probes: 'See to a probe',
  look: 'Ask hand and nose',
  open: 'Open it',
  keep: 'Water, cover, place',
  end: 'End it',
};

export function Hands({ scenario, run, frame }: HandsProps) {
  const { unit } = usePrefs();
  const say = useSay(renderCaution);
  return (
    <div class="hands">
      <div class="hand-answer" role="status">
        {run.answer && (
          <>
            <p>
              <b>{run.answer.words}.</b> {run.answer.found && sentenceIn(unit, run.answer.found)}
            </p>
            {run.answer.caution && (
              <p class="caution">
                <span class="label">Caution with a real pile</span> {run.answer.caution}
              </p>
            )}
          </>
        )}
      </div>
      {offersFor(scenario, frame.seen).map(({ id, offers }) => (
        <section class="hand-group" key={id} aria-labelledby={`hand-${id}`}>
          <h3 id={`hand-${id}`}>{groupTitles[id]}</h3>
          <div class="offers">
            {offers.map((offer) =>
              offer.id === 'finish' ? <Finish key={offer.id} /> : <OneOffer key={offer.id} offer={offer} />,
            )}
          </div>
          {cautionsOf(id, offers, frame, say).map((caution) => (
            <p class="hint caution" key={caution}>
              <span class="label">Caution</span> {caution}
            </p>
          ))}
        </section>
      ))}
    </div>
  );
}

function cautionsOf(id: OfferGroup['id'], offers: readonly Offer[], { pile }: Frame, say: Say): string[] {
  if (id === 'look') return [handCautions.squeeze, handCautions['look-and-smell']];
  if (id === 'open') return actCautions('turned', hottestC(pile.positions)).map(say);
  const hasShed = offers.some((offer) => offer.id === 'close-shed' || offer.id === 'open-shed');
  return id === 'keep' && hasShed ? [handCautions['close-shed']] : [];
}

/** What the two small buttons beside an amount do. */
const amountWords: Partial<Record<PracticeActKind, readonly [less: string, more: string]>> = {
  water: ['Less water', 'More water'],
  'add-dry-bran': ['Less dry bran', 'More dry bran'],
  spread: ['Thinner, when spreading', 'Less thin, when spreading'],
  heap: ['Less deep, when heaping', 'Deeper, when heaping'],
};

function OneOffer({ offer }: { readonly offer: Offer }) {
  const [chosen, setChosen] = useState<number | null>(null);
  const at = Math.min(offer.choices.length - 1, chosen ?? offer.usual);
  const act = offer.choices[at] as PracticeAct;
  const words = toDoWords(act);
  if (offer.choices.length === 1) {
    return (
      <button type="button" onClick={() => doAct(act)}>
        {words}
      </button>
    );
  }
  const [less, more] = amountWords[act.kind] ?? ['Less', 'More'];
  return (
    <div class="offer-amount">
      <button type="button" class="less" aria-label={less} disabled={at === 0} onClick={() => setChosen(at - 1)}>
        −
      </button>
      <button
        type="button"
        class="act"
        onClick={() => {
          doAct(act);
          setChosen(null);
        }}
      >
        {words}
      </button>
      <button
        type="button"
        class="more-of"
        aria-label={more}
        disabled={at === offer.choices.length - 1}
        onClick={() => setChosen(at + 1)}
      >
        +
      </button>
    </div>
  );
}

/** It ends the run, so it is asked twice. */
function Finish() {
  const [isAsked, setIsAsked] = useState(false);
  if (!isAsked)
    return (
      <button type="button" onClick={() => setIsAsked(true)}>
        Say it is done…
      </button>
    );
  return (
    <>
      <button type="button" class="primary" onClick={() => doAct({ kind: 'finish' })}>
        It is done: end the run
      </button>
      <button type="button" class="plain" onClick={() => setIsAsked(false)}>
        Not yet
      </button>
    </>
  );
}
