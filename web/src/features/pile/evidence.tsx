/** Everything that was looked at, so that the page can say why it says so. */
import type { PileDetail } from '../../../../shared/contracts/piles.ts';
import { usePrefs } from '../../data/prefs.ts';
import { sentenceIn } from '../../ui/format/temperature.ts';
import { positionNames, warningNames } from '../../ui/format/words.ts';
import { Part } from '../../ui/parts/part.tsx';
import { type EvidenceLine, evidenceLines } from './evidence-groups.ts';
import { phaseSentence } from './phase-words.ts';

export function EvidenceList({ pile }: { readonly pile: PileDetail }) {
  const { unit } = usePrefs();
  if (pile.evidence.length === 0) return null;
  const absent = evidenceLines(pile.evidence, 'absent');
  return (
    <Part id="evidence" title="Why it says so">
      {pile.batch && <p>{sentenceIn(unit, phaseSentence(pile.batch))}</p>}
      <Lines title="Seen" lines={evidenceLines(pile.evidence, 'present')} />
      <Lines
        title="Cannot be told: the readings it needs are missing"
        lines={evidenceLines(pile.evidence, 'missing')}
      />
      {absent.length > 0 && (
        <details class="more">
          <summary>Looked for and not seen ({absent.length})</summary>
          <Lines lines={absent} />
        </details>
      )}
    </Part>
  );
}

interface LinesProps {
  readonly title?: string;
  readonly lines: readonly EvidenceLine[];
}

function Lines({ title, lines }: LinesProps) {
  const { unit } = usePrefs();
  if (lines.length === 0) return null;
  return (
    <div class="evidence">
      {title && <h3>{title}</h3>}
      <ul>
        {lines.map(({ kind, places, why }) => (
          <li key={`${kind} ${places.join(' ')}`}>
            <b>
              {warningNames[kind]}
              {places.length > 0 && `: ${places.map((place) => positionNames[place]).join(', ')}`}
            </b>
            {sentenceIn(unit, why)}
          </li>
        ))}
      </ul>
    </div>
  );
}
