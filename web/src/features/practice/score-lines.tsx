/** Where each point came from, a line to each part. */
import type { Score } from '../../../../simulator/practice/score.ts';
import { usePrefs } from '../../data/prefs.ts';
import { sentenceIn } from '../../ui/format/temperature.ts';
import './cut-open.css';

export function ScoreLines({ score }: { readonly score: Score }) {
  const { unit } = usePrefs();
  return (
    <ol class="score-lines">
      {score.parts.map(({ name, points, outOf, why }) => (
        <li key={name}>
          <h3>{name}</h3>
          <p class="score-points">
            <b>{points}</b> of {outOf}
          </p>
          {/* One stroke for each point to be had, the points won drawn full. */}
          <svg
            class="score-tally"
            viewBox={`0 0 ${outOf * 6 + 2} 14`}
            width={outOf * 6 + 2}
            height="14"
            aria-hidden="true"
          >
            {Array.from({ length: outOf }, (_, i) => (
              <path
                key={i * 6}
                class={i < points ? 'tally-won' : 'tally-lost'}
                d={i % 5 === 4 ? `M${i * 6 - 23} 11L${i * 6 + 1} 3` : `M${i * 6 + 3} 1v12`}
              />
            ))}
          </svg>
          <p>{sentenceIn(unit, why)}</p>
        </li>
      ))}
    </ol>
  );
}
