/** What speaks for the batch being done, point by point, as the page of a real one has it. */

import type { ComponentChildren } from 'preact';
import type { PileDetail } from '../../../../shared/contracts/piles.ts';
import { useSay } from '../../data/live/use-say.ts';
import { renderReadiness } from '../../ui/format/render-readiness.ts';
import { Part } from '../../ui/parts/part.tsx';
import { usePracticeWords } from './use-practice-words.ts';
import '../pile/readiness.css';

const bold = (inner: ComponentChildren) => <b>{inner}</b>;

export function PracticeDone({ pile }: { readonly pile: PileDetail }) {
  const { text, rich } = usePracticeWords();
  const say = useSay(renderReadiness);
  if (!pile.judgement) return null;
  const { points, messages } = pile.judgement.readiness;
  return (
    <Part id="done" title={text('page-practice.ready')}>
      <ul class="points">
        {points.map(({ what, seen, messages: { says } }) => (
          <li key={what}>
            <svg class={seen ? 'point-mark point-seen' : 'point-mark'} viewBox="0 0 20 20" aria-hidden="true">
              <circle cx="10" cy="10" r="8" />
              {seen && <path d="M5.8 10.4 8.8 13.3 14.4 7" />}
            </svg>
            <span>{rich('page-practice.ready.point', { isSeen: seen, saysText: say(says), b: bold })}</span>
          </li>
        ))}
      </ul>
      <p class="next">{say(messages.next)}</p>
      <p class="hint">{text('page-practice.ready.last-word')}</p>
    </Part>
  );
}
