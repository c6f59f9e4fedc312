/** The water in the bed with its doubt, and how much more it could take. */
import { hazardStands } from '../../../../core/alarms/precedence.ts';
import type { PileDetail } from '../../../../shared/contracts/piles.ts';
import { useSay } from '../../data/live/use-say.ts';
import { usePrefs } from '../../data/prefs.ts';
import { handfulCaution, hottestC, renderCaution } from '../../ui/format/act-caution.ts';
import { sentenceIn } from '../../ui/format/temperature.ts';
import { Part } from '../../ui/parts/part.tsx';
import { MoistureRule } from './moisture-rule.tsx';
import { handWateringWords, moistureBand, moistureStand, moistureWords, wateringWords } from './water-words.ts';
import './moisture.css';

export function Moisture({ pile }: { readonly pile: PileDetail }) {
  const { unit } = usePrefs();
  const sayCaution = useSay(renderCaution);
  if (!pile.batch || !pile.judgement) return null;
  const { moisture } = pile.batch;
  const band = moistureBand(pile.limits);
  const hottest = hottestC(pile.positions);
  const say = (text: string) => sentenceIn(unit, text);
  if (!moisture) {
    return (
      <Part id="moisture" title="Moisture">
        <p>
          How damp it is is not known now: the balance needs the core’s heat.
          {!hazardStands(pile.alarms) && ` Squeeze a handful from the core. ${sayCaution(handfulCaution(hottest))}`}
        </p>
      </Part>
    );
  }
  const [dose, ...how] =
    handWateringWords(pile.alarms) ?? wateringWords(pile.judgement.waterToAdd, moisture.frac, band);
  return (
    <Part id="moisture" title="Moisture">
      <p>
        {say(moistureWords(moisture))} {band && say(moistureStand(moisture, band))}
      </p>
      {band && <MoistureRule moisture={moisture} band={band} />}
      <p class="dose">
        <b>{say(dose ?? '')}</b>
      </p>
      {how.map((text) => (
        <p key={text}>{text}</p>
      ))}
      <p class="caution">
        <span class="label">Caution</span> Water cannot be taken out again. This is a balance of what was laid, given
        and driven out, not a measurement: your squeezed handful knows better.{' '}
        {!hazardStands(pile.alarms) && sayCaution(handfulCaution(hottest))}
      </p>
    </Part>
  );
}
