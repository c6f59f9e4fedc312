/** Where each point came from, a line to each part. */
import type { ComponentChildren } from 'preact';
import type { Score } from '../../../../simulator/practice/score.ts';
import { usePracticeSay, usePracticeWords } from './use-practice-words.ts';
import './cut-open.css';

const bold = (inner: ComponentChildren) => <b>{inner}</b>;

export function ScoreLines({ score }: { readonly score: Score }) {
  const { text, rich } = usePracticeWords();
  const say = usePracticeSay();
  return (
    <ol class="score-lines">
      {score.parts.map(({ of, points, outOf, why }) => (
        <li key={of}>
          <h3>{text(`page-practice.points.${of}`)}</h3>
          <p class="score-points">
            {rich('page-practice.points.won', { pointCount: points, outOfCount: outOf, b: bold })}
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
          <p>{say(why)}</p>
        </li>
      ))}
    </ol>
  );
}
