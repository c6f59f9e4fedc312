/** What each act brought about, and one way that would have done. */
import { msPerHour } from '../../../../shared/units.ts';
import type { Debrief } from '../../../../simulator/practice/debrief.ts';
import { useReader } from '../../data/live/use-installation.ts';
import { usePrefs } from '../../data/prefs.ts';
import { dayAndTime } from '../../ui/format/local-time.ts';
import { sentenceIn } from '../../ui/format/temperature.ts';
import { capital } from '../../ui/format/words.ts';
import { doneWords } from './act-words.ts';
import './cut-open.css';

interface ActEffectsProps {
  readonly debrief: Debrief;
  readonly startedAtMs: number;
}

export function ActEffects({ debrief, startedAtMs }: ActEffectsProps) {
  const { unit } = usePrefs();
  const reader = useReader();
  if (debrief.acts.length === 0) return <p class="quiet">You did nothing to this pile: it went its own way.</p>;
  return (
    <>
      <p class="hint">Each act left out in turn, the rest as it was: this is what it changed.</p>
      <ol class="diary effects">
        {debrief.acts.map(({ afterH, act, did }, i) => (
          <li key={i}>
            <p class="effect-when">
              <span class="effect-number">{i + 1}</span> {capital(dayAndTime(startedAtMs + afterH * msPerHour, reader))}
            </p>
            <p>
              <b>{doneWords(act)}.</b> {sentenceIn(unit, did)}
            </p>
          </li>
        ))}
      </ol>
    </>
  );
}

export function OneGoodWay({ debrief, startedAtMs }: ActEffectsProps) {
  const reader = useReader();
  return (
    <>
      <p class="hint">
        Not the only one. It reached the goal in the three weathers it was tried in; yours may ask for more.
      </p>
      <ol class="diary">
        {debrief.example.map(({ afterH, act }, i) => (
          <li key={i}>
            <time>{capital(dayAndTime(startedAtMs + afterH * msPerHour, reader))}</time>
            <p>
              <b>{doneWords(act)}</b>
            </p>
          </li>
        ))}
      </ol>
    </>
  );
}
