/** What each act brought about, and one way that would have done. */
import { msPerHour } from '../../../../shared/units.ts';
import type { Debrief } from '../../../../simulator/practice/debrief.ts';
import { useReader } from '../../data/live/use-installation.ts';
import { actWords } from './act-words.ts';
import { whenOf } from './practice-time.ts';
import { usePracticeSay, usePracticeWords } from './use-practice-words.ts';
import './cut-open.css';

interface ActEffectsProps {
  readonly debrief: Debrief;
  readonly startedAtMs: number;
}

export function ActEffects({ debrief, startedAtMs }: ActEffectsProps) {
  const reader = useReader();
  const words = usePracticeWords();
  const say = usePracticeSay();
  const { text } = words;
  if (debrief.acts.length === 0) return <p class="quiet">{text('page-practice.effects.none')}</p>;
  return (
    <>
      <p class="hint">{text('page-practice.effects.how')}</p>
      <ol class="diary effects">
        {debrief.acts.map(({ afterH, act, did }, i) => (
          <li key={i}>
            <p class="effect-when">
              <span class="effect-number">{i + 1}</span>{' '}
              {text('page-practice.when.start', whenOf(startedAtMs + afterH * msPerHour, reader))}
            </p>
            <p>
              <b>{actWords('done', act, words)}.</b> {say(did)}
            </p>
          </li>
        ))}
      </ol>
    </>
  );
}

export function OneGoodWay({ debrief, startedAtMs }: ActEffectsProps) {
  const reader = useReader();
  const words = usePracticeWords();
  const { text } = words;
  return (
    <>
      <p class="hint">{text('page-practice.way.not-only')}</p>
      <ol class="diary">
        {debrief.example.map(({ afterH, act }, i) => (
          <li key={i}>
            <time>{text('page-practice.when.start', whenOf(startedAtMs + afterH * msPerHour, reader))}</time>
            <p>
              <b>{actWords('done', act, words)}</b>
            </p>
          </li>
        ))}
      </ol>
    </>
  );
}
