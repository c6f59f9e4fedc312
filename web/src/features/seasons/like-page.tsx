/** Past batches that went like one, what was done to them and how they ended. */

import { useState } from 'preact/hooks';
import { useRoute } from 'preact-iso';
import type { AlignBy } from '../../../../core/seasons/align.ts';
import { coverNames } from '../../../../shared/contracts/domain/batch.ts';
import type { ClosestAnswer } from '../../../../shared/contracts/seasons.ts';
import { materialNames } from '../../../../shared/profiles/material-names.ts';
import { reasonOf } from '../../data/client.ts';
import { useSay } from '../../data/live/use-say.ts';
import { usePrefs } from '../../data/prefs.ts';
import { useQuery } from '../../data/use-query.ts';
import { formatDifference, plainNumber, type TempUnit } from '../../ui/format/temperature.ts';
import { actNames, capital, counted } from '../../ui/format/words.ts';
import { Choice } from '../../ui/parts/forms.tsx';
import { Part } from '../../ui/parts/part.tsx';
import { usePage } from '../../ui/parts/use-page.ts';
import { curveStyles } from './curve-style.ts';
import { Overlay } from './overlay.tsx';
import { renderSeason } from './render-season.ts';
import { getClosest } from './season-api.ts';
import './season.css';
import './measure-table.css';

export function LikePage() {
  const { id = '' } = useRoute().params;
  const { value, error } = useQuery(`like ${id}`, () => getClosest(id));
  const heading = usePage(value ? `Like ${value.batch.name}` : 'Closest past batches');
  return (
    <div class="page">
      <h1 ref={heading} tabIndex={-1}>
        {value ? `Past batches like ${value.batch.name}` : 'Closest past batches'}
      </h1>
      {error !== undefined && <p class="refusal">{reasonOf(error)}</p>}
      {value && <Like answer={value} />}
    </div>
  );
}

function Like({ answer }: { readonly answer: ClosestAnswer }) {
  const { unit } = usePrefs();
  const say = useSay(renderSeason);
  const [by, setBy] = useState<AlignBy>('age');
  const names = new Map([answer.batch, ...answer.closest.map(({ batch }) => batch)].map(({ id, name }) => [id, name]));
  return (
    <>
      <p class="lead">{say(answer.messages.says)}</p>
      {answer.closest.length > 0 && (
        <Part id="like-curves" title="Curves">
          <Choice
            legend="Counted from"
            value={by}
            choices={[
              ['age', 'when it was laid'],
              ['warming', 'when warming began'],
            ]}
            onValue={setBy}
          />
          <Overlay
            curves={answer.curves}
            nameOf={(id) => names.get(id) ?? id}
            by={by}
            broughtOut={answer.curves.map((curve) => curve.id).slice(0, curveStyles.length)}
            unit={unit}
          />
        </Part>
      )}
      {answer.closest.length > 0 && (
        <Part id="closest" title="Closest first">
          <ol class="closest">
            {answer.closest.map((one) => (
              <li key={one.batch.id}>
                <Past one={one} unit={unit} />
              </li>
            ))}
          </ol>
          <p class="hint">
            Closeness counts how far the cores lay apart so far and, beside it, differences of depth, moisture,
            material, cover and air: {weights}.
          </p>
        </Part>
      )}
      <p>
        <a href={`/batches/${encodeURIComponent(answer.batch.id)}`}>Back to {answer.batch.name}</a>
      </p>
    </>
  );
}

const weights = '10 cm of depth, or five points of moisture, weigh like 2 °C between the curves; our own choice';

function Past({ one, unit }: { readonly one: ClosestAnswer['closest'][number]; readonly unit: TempUnit }) {
  const { batch, curveK, conditionK, acts } = one;
  const done = acts.filter(({ ahead }) => !ahead);
  const ahead = acts.filter((act) => act.ahead);
  return (
    <article>
      <h3>
        <a href={`/batches/${encodeURIComponent(batch.id)}/record`}>{batch.name}</a>
      </h3>
      <p class="quiet">
        {laidWords(batch)}
        The cores lay {formatDifference(curveK, unit).replace('+', '')} apart; what differed in laying and air weighs{' '}
        {formatDifference(conditionK, unit).replace('+', '')}.
      </p>
      <dl class="ledger">
        <div>
          <dt>Done until this age</dt>
          <dd>{done.length === 0 ? 'nothing that was written down' : done.map(actSaid).join('; ')}</dd>
        </div>
        <div>
          <dt>Done later</dt>
          <dd>{ahead.length === 0 ? 'nothing that was written down' : ahead.map(actSaid).join('; ')}</dd>
        </div>
        <div>
          <dt>How it ended</dt>
          <dd>
            {batch.outcome ?? 'nobody wrote it down'}
            {batch.measures.readyDays !== null && ` (after ${counted(Math.round(batch.measures.readyDays), 'day')})`}
          </dd>
        </div>
      </dl>
    </article>
  );
}

function actSaid({ kind, afterH, amountL, depthM }: ClosestAnswer['closest'][number]['acts'][number]): string {
  const name = (actNames as Record<string, string>)[kind] ?? kind;
  const how =
    amountL !== null
      ? ` with ${plainNumber(amountL, 0)} L`
      : depthM !== null
        ? ` to ${plainNumber(depthM * 100, 0)} cm`
        : '';
  return `${name.toLowerCase()}${how} after ${plainNumber(afterH / 24, 1)} days`;
}

/** @example "Wheat bran, 29 cm, cover not given." */
function laidWords({ material, depthM, cover }: ClosestAnswer['batch']): string {
  const said = [
    material === null ? 'material not given' : materialNames[material],
    depthM === null ? 'depth not given' : `${plainNumber(depthM * 100, 0)}\u00a0cm`,
    cover === null ? 'cover not given' : coverNames[cover],
  ];
  return `${capital(said.join(', '))}.`;
}
