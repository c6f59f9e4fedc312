/** The readings a warning rests on, and what was done lately that changes what is expected. */

import { conditionOf } from '../../../../shared/conditions/kinds.ts';
import type { PileDetail } from '../../../../shared/contracts/piles.ts';
import type { Position } from '../../../../shared/names.ts';
import type { WarningKind } from '../../../../shared/warning.ts';
import { useReader, useServerNow } from '../../data/live/use-installation.ts';
import { usePrefs } from '../../data/prefs.ts';
import { actName } from '../../ui/format/act-name.ts';
import { nearTime } from '../../ui/format/local-time.ts';
import { quantityHint, readingWords } from '../../ui/format/quantity-words.ts';
import { heatWords } from '../../ui/mound/mound-facts.ts';
import { useMoundWords } from '../../ui/mound/use-mound-words.ts';
import { Part } from '../../ui/parts/part.tsx';
import { overWords } from './ahead-words.ts';
import { heardWords } from './heard-words.ts';
import { usePileWords } from './use-pile-words.ts';
import { moistureWords } from './water-words.ts';
import { actsLately } from './why-facts.ts';
import './why.css';

interface WhyReadingsProps {
  readonly pile: PileDetail;
  readonly kind: WarningKind;
}

export function WhyReadings({ pile, kind }: WhyReadingsProps) {
  const { text, rich } = usePileWords();
  const { positions: places } = conditionOf(kind).restsOn;
  return (
    <Part id="readings" title={text('page-pile.why.readings')}>
      <ul class="why-found">
        {places.map((position) => (
          <Place key={position} position={position} pile={pile} kind={kind} />
        ))}
      </ul>
      <Also pile={pile} kind={kind} />
      {places.some((position) => pile.positions[position]?.moisturePct !== undefined) && (
        <p class="hint">{quantityHint('moisture')}</p>
      )}
      <p class="hint">
        {rich('page-pile.why.curves', {
          link: (inner) => <a href={`/piles/${encodeURIComponent(pile.id)}`}>{inner}</a>,
        })}
      </p>
    </Part>
  );
}

function Place({ position, pile, kind }: WhyReadingsProps & { readonly position: Position }) {
  const moundWords = useMoundWords();
  const { unit } = usePrefs();
  const words = usePileWords(pile.site);
  const nowMs = useServerNow();
  const now = pile.positions[position];
  const said = now
    ? [
        heatWords(now, unit, moundWords),
        now.moisturePct !== undefined && readingWords('moisture', now.moisturePct, unit),
        kind === 'drying' && now.humidityPct !== undefined && readingWords('humidity', now.humidityPct, unit),
        heardWords(now, nowMs, words),
      ].filter(Boolean)
    : [words.text('page-pile.why.no-probe')];
  return (
    <li>
      {words.rich('page-pile.place', {
        position: position === 'air' ? 'other' : position,
        b: (inner) => <b>{inner}</b>,
      })}
      {said.join(', ')}
    </li>
  );
}

/** What the judge adds to the readings: the balance of water, the day ahead, and what hands did. */
function Also({ pile, kind }: WhyReadingsProps) {
  const words = usePileWords(pile.site);
  const { text } = words;
  const nowMs = useServerNow();
  const reader = useReader(pile.site);
  const { also, acts: minds } = conditionOf(kind).restsOn;
  const acts = actsLately(pile.acts, nowMs);
  const { core } = pile.positions;
  return (
    <>
      {also.includes('moisture') && (
        <p>
          <span class="label">{text('page-pile.why.water')}</span>{' '}
          {pile.batch?.moisture ? moistureWords(pile.batch.moisture, words) : text('page-pile.why.water.unknown')}
        </p>
      )}
      {also.includes('forecast') && pile.limits.actC && pile.judgement && (
        <p>
          <span class="label">{text('page-pile.why.ahead')}</span>{' '}
          {overWords(
            pile.judgement.overLimit,
            pile.limits.actC.value,
            core?.silent || core?.doubted ? null : (core?.temperatureC ?? null),
            { nowMs, reader },
            words,
          )}
        </p>
      )}
      {minds && (
        <p>
          <span class="label">{text('page-pile.why.acts')}</span>{' '}
          {acts.length === 0
            ? text('page-pile.why.acts.none')
            : text('page-pile.why.acts.done', {
                doneText: acts
                  .map(({ kind, at }) =>
                    text('page-pile.why.act', {
                      actText: actName(kind),
                      timeText: nearTime(Date.parse(at), nowMs, reader),
                    }),
                  )
                  .join(', '),
              })}
        </p>
      )}
    </>
  );
}
