/** The readings a warning rests on, and what was done lately that changes what is expected. */

import { conditionOf } from '../../../../shared/conditions/kinds.ts';
import { actKindSchema } from '../../../../shared/contracts/domain/batch.ts';
import type { PileDetail } from '../../../../shared/contracts/piles.ts';
import type { Position } from '../../../../shared/names.ts';
import type { WarningKind } from '../../../../shared/warning.ts';
import { useReader, useServerNow } from '../../data/live/use-installation.ts';
import { usePrefs } from '../../data/prefs.ts';
import { ageWords } from '../../ui/format/age.ts';
import { nearTime } from '../../ui/format/local-time.ts';
import { quantityHint, readingWords } from '../../ui/format/quantity-words.ts';
import { sentenceIn } from '../../ui/format/temperature.ts';
import { actNames, capital, positionNames } from '../../ui/format/words.ts';
import { heatWords } from '../../ui/mound/mound-facts.ts';
import { Part } from '../../ui/parts/part.tsx';
import { overWords } from './ahead-words.ts';
import { moistureWords } from './water-words.ts';
import { actsLately } from './why-facts.ts';
import './why.css';

interface WhyReadingsProps {
  readonly pile: PileDetail;
  readonly kind: WarningKind;
}

export function WhyReadings({ pile, kind }: WhyReadingsProps) {
  const { positions: places } = conditionOf(kind).restsOn;
  return (
    <Part id="readings" title="The readings">
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
        <a href={`/piles/${encodeURIComponent(pile.id)}`}>The curves stand on the pile’s page</a>, as charts and as a
        table.
      </p>
    </Part>
  );
}

function Place({ position, pile, kind }: WhyReadingsProps & { readonly position: Position }) {
  const { unit } = usePrefs();
  const nowMs = useServerNow();
  const now = pile.positions[position];
  const said = now
    ? [
        heatWords(now, unit),
        now.moisturePct !== undefined && readingWords('moisture', now.moisturePct, unit),
        kind === 'drying' && now.humidityPct !== undefined && readingWords('humidity', now.humidityPct, unit),
        now.at
          ? `${now.silent ? 'silent, last heard' : 'heard'} ${ageWords(nowMs - Date.parse(now.at))}`
          : 'never heard',
      ].filter(Boolean)
    : ['no probe sits here'];
  return (
    <li>
      <b>{capital(positionNames[position])}</b>
      {said.join(', ')}
    </li>
  );
}

/** What the judge adds to the readings: the balance of water, the day ahead, and what hands did. */
function Also({ pile, kind }: WhyReadingsProps) {
  const { unit } = usePrefs();
  const nowMs = useServerNow();
  const reader = useReader(pile.site);
  const { also, acts: minds } = conditionOf(kind).restsOn;
  const acts = actsLately(pile.acts, nowMs);
  const { core } = pile.positions;
  return (
    <>
      {also.includes('moisture') && (
        <p>
          <span class="label">Water by the balance</span>{' '}
          {pile.batch?.moisture ? sentenceIn(unit, moistureWords(pile.batch.moisture)) : 'It is not known now.'}
        </p>
      )}
      {also.includes('forecast') && pile.limits.actC && pile.judgement && (
        <p>
          <span class="label">The hours ahead</span>{' '}
          {overWords(
            pile.judgement.overLimit,
            pile.limits.actC.value,
            core?.silent || core?.doubted ? null : (core?.temperatureC ?? null),
            {
              nowMs,
              unit,
              reader,
            },
          )}
        </p>
      )}
      {minds && (
        <p>
          <span class="label">Done in the last day</span>{' '}
          {acts.length === 0
            ? 'Nothing that was written down.'
            : `${acts.map((act) => `${actWords(act.kind)} at ${nearTime(Date.parse(act.at), nowMs, reader)}`).join(', ')}. What a hand does, the judge allows for.`}
        </p>
      )}
    </>
  );
}

function actWords(kind: string): string {
  const known = actKindSchema.safeParse(kind);
  return known.success ? actNames[known.data] : kind;
}
