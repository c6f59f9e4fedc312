/**
 * web/pile/evidence.tsx: everything that was looked at, so that the page can say why it says so.
 */
import type { PileDetail } from '../../../shared/api/piles.ts';
import { sentenceIn } from '../format/temperature.ts';
import { positionNames, warningNames } from '../format/words.ts';
import { Part } from '../parts/part.tsx';
import { usePrefs } from '../prefs.ts';

const order = ['present', 'missing', 'absent'] as const;
const groupWords = {
  present: 'Seen',
  missing: 'Cannot be told: the readings it needs are missing',
  absent: 'Looked for and not seen',
} as const;

export function EvidenceList({ pile }: { readonly pile: PileDetail }) {
  const { unit } = usePrefs();
  if (pile.evidence.length === 0) return null;
  return (
    <Part id="evidence" title="Why it says so">
      {pile.batch && <p>{sentenceIn(unit, pile.batch.phaseReason)}</p>}
      {order.map((kind) => {
        const items = pile.evidence.filter((item) => item.evidence === kind);
        if (items.length === 0) return null;
        return (
          <div class="evidence" key={kind}>
            <h3>{groupWords[kind]}</h3>
            <ul>
              {items.map((item) => (
                <li key={`${item.kind} ${item.position}`}>
                  <b>
                    {warningNames[item.kind]}
                    {item.position && `, ${positionNames[item.position]}`}
                  </b>{' '}
                  {sentenceIn(unit, item.why)}
                </li>
              ))}
            </ul>
          </div>
        );
      })}
    </Part>
  );
}
