/** The water in the bed with its doubt, and how much more it could take. */
import { hazardStands } from '../../../../core/alarms/precedence.ts';
import type { PileDetail } from '../../../../shared/contracts/piles.ts';
import { positions } from '../../../../shared/names.ts';
import { useSay } from '../../data/live/use-say.ts';
import { usePrefs } from '../../data/prefs.ts';
import { handfulCaution, hottestC, renderCaution } from '../../ui/format/act-caution.ts';
import { valueWords } from '../../ui/format/quantity-words.ts';
import { Part } from '../../ui/parts/part.tsx';
import { MoistureRule } from './moisture-rule.tsx';
import { usePileWords } from './use-pile-words.ts';
import { handWateringWords, moistureBand, moistureStand, moistureWords, wateringWords } from './water-words.ts';
import './moisture.css';

export function Moisture({ pile }: { readonly pile: PileDetail }) {
  const { unit } = usePrefs();
  const words = usePileWords(pile.site);
  const sayCaution = useSay(renderCaution);
  const { text } = words;
  if (!pile.batch || !pile.judgement) return null;
  const { moisture } = pile.batch;
  const band = moistureBand(pile.limits);
  const cautionText = hazardStands(pile.alarms) ? null : sayCaution(handfulCaution(hottestC(pile.positions)));
  const probes = positions.flatMap((position) => {
    const pct = pile.positions[position]?.moisturePct;
    const named = position === 'air' ? ('other' as const) : position;
    return pct === undefined ? [] : [{ position: named, readText: valueWords('moisture', pct, unit) }];
  });
  const notComparable = probes.map((probe) => (
    <p class="hint" key={probe.position}>
      {text('page-pile.moisture.probe', probe)}
    </p>
  ));
  if (!moisture) {
    return (
      <Part id="moisture" title={text('page-pile.moisture.title')}>
        <p>
          {text('page-pile.moisture.unknown')}{' '}
          {cautionText !== null && text('page-pile.moisture.squeeze', { cautionText })}
        </p>
        {notComparable}
      </Part>
    );
  }
  const [dose, ...how] =
    handWateringWords(pile.alarms, words) ?? wateringWords(pile.judgement.waterToAdd, moisture.frac, band, words);
  return (
    <Part id="moisture" title={text('page-pile.moisture.title')}>
      <p>
        {moistureWords(moisture, words)} {band && moistureStand(moisture, band, words)}
      </p>
      {band && <MoistureRule moisture={moisture} band={band} />}
      {notComparable}
      <p class="dose">
        <b>{dose}</b>
      </p>
      {how.map((one) => (
        <p key={one}>{one}</p>
      ))}
      <p class="caution">
        <span class="label">{text('page-pile.caution')}</span> {text('page-pile.moisture.caution')} {cautionText}
      </p>
    </Part>
  );
}
