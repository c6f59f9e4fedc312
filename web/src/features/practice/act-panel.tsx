/** What can be done to the pile, each act in one tap, with the caution that goes with it. */
import { useState } from 'preact/hooks';
import type { Message } from '../../../../shared/messages/message.ts';
import { actCautions as handCautions } from '../../../../simulator/practice/cautions.ts';
import type { PracticeAct, PracticeScenario } from '../../../../simulator/practice/scenarios/practice-scenario.ts';
import { actCautions, hottestC } from '../../ui/format/act-caution.ts';
import { type Offer, type OfferGroup, offersFor } from './act-offers.ts';
import { actWords } from './act-words.ts';
import type { Frame } from './practice-session.ts';
import { doAct } from './run-keeper.ts';
import type { Run } from './run-state.ts';
import { usePracticeSay, usePracticeWords } from './use-practice-words.ts';
import './tending.css';

interface HandsProps {
  readonly scenario: PracticeScenario;
  readonly run: Run;
  readonly frame: Frame;
}

export function Hands({ scenario, run, frame }: HandsProps) {
  const words = usePracticeWords();
  const say = usePracticeSay();
  const { text } = words;
  return (
    <div class="hands">
      <div class="hand-answer" role="status">
        {run.answer && (
          <>
            <p>
              <b>{run.answer.act ? actWords('done', run.answer.act, words) : text('page-practice.not-done')}.</b>{' '}
              {run.answer.found && say(run.answer.found)}
            </p>
            {run.answer.caution && (
              <p class="caution">
                <span class="label">{text('page-practice.caution.real')}</span> {say(run.answer.caution)}
              </p>
            )}
          </>
        )}
      </div>
      {offersFor(scenario, frame.seen).map(({ id, offers }) => (
        <section class="hand-group" key={id} aria-labelledby={`hand-${id}`}>
          <h3 id={`hand-${id}`}>{text(`page-practice.hand-group.${id}`)}</h3>
          <div class="offers">
            {offers.map((offer) =>
              offer.id === 'finish' ? <Finish key={offer.id} /> : <OneOffer key={offer.id} offer={offer} />,
            )}
          </div>
          {cautionsOf(id, offers, frame).map((caution, i) => (
            <p class="hint caution" key={i}>
              <span class="label">{text('page-practice.caution')}</span> {say(caution)}
            </p>
          ))}
        </section>
      ))}
    </div>
  );
}

function cautionsOf(id: OfferGroup['id'], offers: readonly Offer[], { pile }: Frame): Message[] {
  if (id === 'look') return [handCautions.squeeze, handCautions['look-and-smell']];
  if (id === 'open') return actCautions('turned', hottestC(pile.positions));
  const hasShed = offers.some((offer) => offer.id === 'close-shed' || offer.id === 'open-shed');
  return id === 'keep' && hasShed ? [handCautions['close-shed']] : [];
}

function OneOffer({ offer }: { readonly offer: Offer }) {
  const [chosen, setChosen] = useState<number | null>(null);
  const at = Math.min(offer.choices.length - 1, chosen ?? offer.usual);
  const act = offer.choices[at] as PracticeAct;
  const practiceWords = usePracticeWords();
  const { text } = practiceWords;
  const words = actWords('do', act, practiceWords);
  if (!hasAmount(act)) {
    return (
      <button type="button" onClick={() => doAct(act)}>
        {words}
      </button>
    );
  }
  return (
    <div class="offer-amount">
      <button
        type="button"
        class="less"
        aria-label={text(`page-practice.less.${act.kind}`)}
        disabled={at === 0}
        onClick={() => setChosen(at - 1)}
      >
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
        aria-label={text(`page-practice.more.${act.kind}`)}
        disabled={at === offer.choices.length - 1}
        onClick={() => setChosen(at + 1)}
      >
        +
      </button>
    </div>
  );
}

type WithAmount = Extract<PracticeAct, { kind: 'water' | 'add-dry-bran' | 'spread' | 'heap' }>;

function hasAmount(act: PracticeAct): act is WithAmount {
  return act.kind === 'water' || act.kind === 'add-dry-bran' || act.kind === 'spread' || act.kind === 'heap';
}

/** It ends the run, so it is asked twice. */
function Finish() {
  const { text } = usePracticeWords();
  const [isAsked, setIsAsked] = useState(false);
  if (!isAsked)
    return (
      <button type="button" onClick={() => setIsAsked(true)}>
        {text('page-practice.finish.first')}
      </button>
    );
  return (
    <>
      <button type="button" class="primary" onClick={() => doAct({ kind: 'finish' })}>
        {text('page-practice.finish')}
      </button>
      <button type="button" class="plain" onClick={() => setIsAsked(false)}>
        {text('page-practice.finish.not-yet')}
      </button>
    </>
  );
}
