/**
 * web/pile/limits.tsx: what is normal for this batch, where each figure comes from, and changing the two that matter most.
 */
import { useState } from 'preact/hooks';
import type { PileDetail } from '../../../shared/api/piles.ts';
import { changePile } from '../api/routes.ts';
import { celsiusFrom, plainNumber, tempIn, unitSigns } from '../format/temperature.ts';
import { Refusal, TextField } from '../parts/forms.tsx';
import { Part } from '../parts/part.tsx';
import { useDeed } from '../parts/use-deed.ts';
import { usePrefs } from '../prefs.ts';
import { typedNumber } from './batch-fields.tsx';
import { limitLines } from './limit-lines.ts';

interface LimitsProps {
  readonly pile: PileDetail;
  readonly onChange: () => Promise<unknown>;
}

export function Limits({ pile, onChange }: LimitsProps) {
  const { unit } = usePrefs();
  return (
    <Part id="limits" title="What is normal here">
      <dl class="ledger">
        {limitLines(pile.limits, unit).map(({ what, value, origin }) => (
          <div key={what}>
            <dt>{what}</dt>
            <dd>
              <b>{value}</b> <span class="origin">{origin}</span>
            </dd>
          </div>
        ))}
      </dl>
      {pile.batch && <ChangeLimits pile={pile} onChange={onChange} />}
    </Part>
  );
}

const changeable = [
  ['comfortMinC', 'Comfortable from'],
  ['comfortMaxC', 'Comfortable to'],
  ['actC', 'Spread thinner or turn at'],
  ['lossC', 'Culture being lost at'],
] as const;
type Changeable = (typeof changeable)[number][0];

function ChangeLimits({ pile, onChange }: LimitsProps) {
  const { unit } = usePrefs();
  const deed = useDeed();
  const [typed, setTyped] = useState<Partial<Record<Changeable, string>>>({});
  const shown = (key: Changeable) => typed[key] ?? plainNumber(tempIn(unit, pile.limits[key]?.value ?? 0), 0);
  const keep = () =>
    deed.run(async () => {
      const limits = Object.fromEntries(
        Object.entries(typed).flatMap(([key, text]) => {
          const value = typedNumber(text ?? '');
          return value === undefined ? [] : [[key, Number(celsiusFrom(unit, value).toFixed(2))]];
        }),
      );
      await changePile(pile.id, { limits });
      await onChange();
      setTyped({});
    });
  return (
    <details class="more">
      <summary>Change these for this batch</summary>
      <form
        class="form"
        onSubmit={(event) => {
          event.preventDefault();
          void keep();
        }}
      >
        <div class="field-row">
          {changeable.map(([key, label]) => (
            <TextField
              key={key}
              label={label}
              unit={unitSigns[unit]}
              inputMode="decimal"
              value={shown(key)}
              onValue={(text) => setTyped({ ...typed, [key]: text })}
              error={deed.fieldError(`/limits/${key}`)}
            />
          ))}
        </div>
        <Refusal error={deed.error} />
        <button type="submit" disabled={deed.busy || Object.keys(typed).length === 0}>
          Keep these limits
        </button>
      </form>
    </details>
  );
}
