/** What speaks for the batch being done, point by point, as the page of a real one has it. */
import type { PileDetail } from '../../../../shared/contracts/piles.ts';
import { usePrefs } from '../../data/prefs.ts';
import { sentenceIn } from '../../ui/format/temperature.ts';
import { Part } from '../../ui/parts/part.tsx';

export function PracticeDone({ pile }: { readonly pile: PileDetail }) {
  const { unit } = usePrefs();
  if (!pile.judgement) return null;
  const { points, next } = pile.judgement.readiness;
  return (
    <Part id="done" title="Is it done?">
      <ul class="points">
        {points.map(({ what, seen, says }) => (
          <li key={what}>
            <svg class={seen ? 'point-mark point-seen' : 'point-mark'} viewBox="0 0 20 20" aria-hidden="true">
              <circle cx="10" cy="10" r="8" />
              {seen && <path d="M5.8 10.4 8.8 13.3 14.4 7" />}
            </svg>
            <span>
              <b>{seen ? 'Yes' : 'Not yet'}</b> {sentenceIn(unit, says)}
            </span>
          </li>
        ))}
      </ul>
      <p class="next">{sentenceIn(unit, next)}</p>
      <p class="hint">The last word is yours: look and smell, then say it with your hands above.</p>
    </Part>
  );
}
