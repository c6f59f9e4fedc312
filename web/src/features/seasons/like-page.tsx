/** Past batches that went like one, what was done to them and how they ended. */

import { useState } from 'preact/hooks';
import { useRoute } from 'preact-iso';
import type { AlignBy } from '../../../../core/seasons/align.ts';
import { actKindSchema } from '../../../../shared/contracts/domain/batch.ts';
import type { ClosestAnswer } from '../../../../shared/contracts/seasons.ts';
import { type Message, message } from '../../../../shared/messages/message.ts';
import { materialProfiles } from '../../../../shared/profiles/materials.ts';
import { reasonOf } from '../../data/client.ts';
import { usePrefs } from '../../data/prefs.ts';
import { useQuery } from '../../data/use-query.ts';
import { Choice } from '../../ui/parts/forms.tsx';
import { Part } from '../../ui/parts/part.tsx';
import { usePage } from '../../ui/parts/use-page.ts';
import { curveStyles } from './curve-style.ts';
import { Overlay } from './overlay.tsx';
import { getClosest } from './season-api.ts';
import { type SeasonWords, useSaySeason, useSeasonWords } from './use-season-words.ts';
import './season.css';
import './measure-table.css';

export function LikePage() {
  const { id = '' } = useRoute().params;
  const { value, error } = useQuery(`like ${id}`, () => getClosest(id));
  const { text } = useSeasonWords();
  const batchName = value?.batch.name ?? '';
  const heading = usePage(value ? text('page-seasons.like.title.of', { batchName }) : text('page-seasons.like.title'));
  return (
    <div class="page">
      <h1 ref={heading} tabIndex={-1}>
        {value ? text('page-seasons.like.heading', { batchName }) : text('page-seasons.like.title')}
      </h1>
      {error !== undefined && <p class="refusal">{reasonOf(error)}</p>}
      {value && <Like answer={value} />}
    </div>
  );
}

function Like({ answer }: { readonly answer: ClosestAnswer }) {
  const { unit } = usePrefs();
  const { text } = useSeasonWords();
  const say = useSaySeason();
  const [by, setBy] = useState<AlignBy>('age');
  const names = new Map([answer.batch, ...answer.closest.map(({ batch }) => batch)].map(({ id, name }) => [id, name]));
  return (
    <>
      <p class="lead">{say(answer.messages.says)}</p>
      {answer.closest.length > 0 && (
        <Part id="like-curves" title={text('page-seasons.curves')}>
          <Choice
            legend={text('page-seasons.by')}
            value={by}
            choices={[
              ['age', text('page-seasons.by.age')],
              ['warming', text('page-seasons.by.warming')],
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
        <Part id="closest" title={text('page-seasons.like.closest')}>
          <ol class="closest">
            {answer.closest.map((one) => (
              <li key={one.batch.id}>
                <Past one={one} />
              </li>
            ))}
          </ol>
          <p class="hint">{text('page-seasons.like.hint', { depthCm: 10, weighsK: 2 })}</p>
        </Part>
      )}
      <p>
        <a href={`/batches/${encodeURIComponent(answer.batch.id)}`}>
          {text('page-seasons.like.back', { batchName: answer.batch.name })}
        </a>
      </p>
    </>
  );
}

function Past({ one }: { readonly one: ClosestAnswer['closest'][number] }) {
  const words = useSeasonWords();
  const { text } = words;
  const say = useSaySeason();
  const { batch, curveK, conditionK, acts } = one;
  const done = acts.filter(({ ahead }) => !ahead);
  const ahead = acts.filter((act) => act.ahead);
  return (
    <article>
      <h3>
        <a href={`/batches/${encodeURIComponent(batch.id)}/record`}>{batch.name}</a>
      </h3>
      <p class="quiet">
        {say(laidMessage(batch))}{' '}
        {text('page-seasons.like.apart', {
          curveK: { valueK: curveK, decimals: 1 },
          conditionK: { valueK: conditionK, decimals: 1 },
        })}
      </p>
      <dl class="ledger">
        <div>
          <dt>{text('page-seasons.like.done')}</dt>
          <dd>{actsSaid(done, words)}</dd>
        </div>
        <div>
          <dt>{text('page-seasons.like.later')}</dt>
          <dd>{actsSaid(ahead, words)}</dd>
        </div>
        <div>
          <dt>{text('page-seasons.like.ended')}</dt>
          <dd>
            {batch.outcome ?? text('page-seasons.like.no-outcome')}
            {batch.measures.readyDays !== null &&
              ` ${text('page-seasons.like.ready', { dayCount: Math.round(batch.measures.readyDays) })}`}
          </dd>
        </div>
      </dl>
    </article>
  );
}

type PastAct = ClosestAnswer['closest'][number]['acts'][number];

function actsSaid(acts: readonly PastAct[], words: SeasonWords): string {
  if (acts.length === 0) return words.text('page-seasons.like.nothing');
  return acts.map((act) => actSaid(act, words)).join('; ');
}

function actSaid({ kind, afterH, amountL, depthM }: PastAct, { text }: SeasonWords): string {
  const { data: known } = actKindSchema.safeParse(kind);
  return text('page-seasons.like.act', {
    kind: known ?? 'other',
    kindText: kind,
    how: amountL !== null ? 'water' : depthM !== null ? 'depth' : 'other',
    waterL: amountL ?? 0,
    depthCm: Math.round(100 * (depthM ?? 0)),
    dayNumber: Math.round(afterH / 2.4) / 10,
  });
}

/** @example laidMessage(batch) // => "Wheat bran, 29 cm, cover not given." */
function laidMessage({ material, depthM, cover }: ClosestAnswer['batch']): Message {
  return message('season.laid', {
    materialCapitalPart: material === null ? message('season.laid.no-material') : materialProfiles[material].name,
    isDepthKnown: depthM !== null,
    depthCm: Math.round(100 * (depthM ?? 0)),
    coverPart: cover === null ? message('season.laid.no-cover') : message(`laid.cover.${cover}`),
  });
}
