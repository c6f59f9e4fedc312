/** What is normal for this batch, where each figure comes from, and changing them. */

import { useState } from 'preact/hooks';
import type { PileDetail } from '../../../../shared/contracts/piles.ts';
import { usePrefs } from '../../data/prefs.ts';
import { changePile } from '../../data/routes.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { Refusal, TextField } from '../../ui/parts/forms.tsx';
import { May } from '../../ui/parts/only-for.tsx';
import { Part } from '../../ui/parts/part.tsx';
import { limitChange, limitFields, limitUnit, shownLimit, type TypedLimits } from './limit-fields.ts';
import { limitLines } from './limit-lines.ts';
import { usePileWords } from './use-pile-words.ts';
import './limits.css';

interface LimitsProps {
  readonly pile: PileDetail;
  readonly onChange: () => Promise<unknown>;
}

export function Limits({ pile, onChange }: LimitsProps) {
  const { unit } = usePrefs();
  const words = usePileWords();
  const hasSoilProbe = Object.values(pile.positions).some((now) => now?.moisturePct !== undefined);
  return (
    <Part id="limits" title={words.text('page-pile.limits.title')}>
      <dl class="ledger">
        {limitLines(pile.limits, unit, words).map(({ what, value, origin }) => (
          <div key={what}>
            <dt>{what}</dt>
            <dd>
              <b>{value}</b> <span class="origin">{origin}</span>
            </dd>
          </div>
        ))}
      </dl>
      {hasSoilProbe && <p class="hint">{words.text('page-pile.limits.soil-probe')}</p>}
      <May to="keeper">{pile.batch && <ChangeLimits pile={pile} onChange={onChange} />}</May>
    </Part>
  );
}

function ChangeLimits({ pile, onChange }: LimitsProps) {
  const { unit } = usePrefs();
  const words = usePileWords();
  const { text } = words;
  const mutation = useMutation();
  const [typed, setTyped] = useState<TypedLimits>({});
  const [isTried, setIsTried] = useState(false);
  const { limits, wrong } = limitChange(pile.limits, typed, unit, words);
  const isWrong = Object.keys(wrong).length > 0;
  const keep = () =>
    mutation.run(async () => {
      await changePile(pile.id, { limits });
      await onChange();
      setTyped({});
    });
  return (
    <details class="more">
      <summary>{text('page-pile.limits.change')}</summary>
      <form
        class="form"
        onSubmit={(event) => {
          event.preventDefault();
          setIsTried(isWrong);
          if (!isWrong) void keep();
        }}
      >
        <div class="field-row limit-fields">
          {limitFields.map((key) => (
            <TextField
              key={key}
              label={text(`page-pile.limit.${key}`)}
              unit={limitUnit(key, unit, words)}
              inputMode="decimal"
              value={typed[key] ?? shownLimit(key, pile.limits[key]?.value ?? 0, unit)}
              onValue={(value) => setTyped({ ...typed, [key]: value })}
              error={(isTried ? wrong[key] : undefined) ?? mutation.fieldError(`/limits/${key}`)}
            />
          ))}
        </div>
        <p class="hint">{text('page-pile.limits.hint')}</p>
        <Refusal error={mutation.error} />
        <button type="submit" disabled={mutation.busy || Object.keys(typed).length === 0}>
          {text('page-pile.limits.keep')}
        </button>
      </form>
    </details>
  );
}
