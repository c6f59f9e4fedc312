/** What the judge looked at, and the rule it went by. */
import type { PileDetail } from '../../../../shared/contracts/piles.ts';
import { usePrefs } from '../../data/prefs.ts';
import { sentenceIn } from '../../ui/format/temperature.ts';
import { warningNames, warningTitle } from '../../ui/format/words.ts';
import { Part } from '../../ui/parts/part.tsx';
import './practice.css';
import './tending.css';

export function PracticeWhy({ pile }: { readonly pile: PileDetail }) {
  const { unit } = usePrefs();
  const present = pile.evidence.filter(({ evidence }) => evidence === 'present');
  const absent = [...new Set(pile.evidence.filter(({ evidence }) => evidence === 'absent').map(({ kind }) => kind))];
  return (
    <Part id="why" title="Why it says so">
      {present.length === 0 ? (
        <p>Nothing that asks for a warning is seen now.</p>
      ) : (
        <ul class="plain-list">
          {present.map(({ kind, position, seen, why }) => (
            <li key={`${kind} ${position}`}>
              <b>{warningTitle(kind, position)}.</b> {sentenceIn(unit, seen)} {sentenceIn(unit, why)}
            </li>
          ))}
        </ul>
      )}
      {absent.length > 0 && (
        <p class="hint looked-for">
          Looked for and not seen: {absent.map((kind) => warningNames[kind].toLowerCase()).join(', ')}.
        </p>
      )}
    </Part>
  );
}
