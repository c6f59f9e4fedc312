/**
 * web/pages/pile.tsx: one pile: its sentence, its warnings, its mound, what was done, how it went, and why it says so.
 */

import { useMemo } from 'preact/hooks';
import { useRoute } from 'preact-iso';
import type { PileDetail } from '../../../shared/api/piles.ts';
import { positions } from '../../../shared/names.ts';
import { ApiProblem, reasonOf } from '../api/client.ts';
import { getPile } from '../api/routes.ts';
import { ageWords } from '../format/age.ts';
import { plainNumber, sentenceIn } from '../format/temperature.ts';
import { capital, coverNames, materialNames, positionNames, stageNames } from '../format/words.ts';
import { fetchAll } from '../live/connection.ts';
import { useHouse, useHouseNow } from '../live/use-house.ts';
import { Mound } from '../mound/mound.tsx';
import { dampWords, humidityWords } from '../mound/mound-facts.ts';
import { ToneMark } from '../parts/marks.tsx';
import { Part } from '../parts/part.tsx';
import { useAnswer, useThrottled } from '../parts/use-answer.ts';
import { usePage } from '../parts/use-page.ts';
import { Acts } from '../pile/acts.tsx';
import { FinishBatch, NextBatch } from '../pile/batch-end.tsx';
import { BatchRuler } from '../pile/batch-ruler.tsx';
import { EvidenceList } from '../pile/evidence.tsx';
import { History } from '../pile/history.tsx';
import { Limits } from '../pile/limits.tsx';
import { Warnings } from '../pile/warnings.tsx';
import { usePrefs } from '../prefs.ts';

export function PilePage() {
  const { params } = useRoute();
  const id = params.id ?? '';
  const { value, error, refresh } = useAnswer(id, () => getPile(id));
  const live = useHouse((house) => house.piles?.find((pile) => pile.id === id));
  // Live events carry the summary; acts, limits and evidence are fetched again when it changes.
  useThrottled(live, 2_500, () => void refresh());
  const pile = useMemo(() => (value && live ? { ...value, ...live } : value), [value, live]);

  if (pile) return <Pile key={pile.id} pile={pile} refresh={refresh} />;
  return <NoPile error={error} />;
}

function NoPile({ error }: { readonly error: unknown }) {
  const heading = usePage('Pile');
  const isUnknown = error instanceof ApiProblem && error.problem.status === 404;
  return (
    <div class="page narrow">
      <h1 ref={heading} tabIndex={-1}>
        {error === undefined
          ? 'Looking at the pile…'
          : isUnknown
            ? 'No pile lies at this address.'
            : 'The pile cannot be shown now.'}
      </h1>
      {error !== undefined && <p class="lead">{isUnknown ? <a href="/">Go to the piles</a> : reasonOf(error)}</p>}
    </div>
  );
}

function Pile({ pile, refresh }: { readonly pile: PileDetail; readonly refresh: () => Promise<void> }) {
  const heading = usePage(pile.name);
  const { unit } = usePrefs();
  const siteName = useHouse((house) => house.sites.find((site) => site.id === pile.site)?.name ?? pile.site);
  const afterChange = () => Promise.all([refresh(), fetchAll()]);
  return (
    <div class="page pile-page">
      <header class="opening">
        <p class="dateline">
          <a href="/">{siteName}</a>, {stageNames[pile.stage]}
        </p>
        <div class="pile-title">
          <h1 ref={heading} tabIndex={-1}>
            {pile.name}
          </h1>
          <ToneMark tone={pile.tone} />
        </div>
        <p class="sentence sentence-large">{sentenceIn(unit, pile.condition)}</p>
        {pile.next && <p class="next next-large">{sentenceIn(unit, pile.next)}</p>}
      </header>
      {pile.batch === null && <NextBatch pile={pile} onChange={afterChange} />}
      <div class="pile-now">
        <Warnings alarms={pile.alarms} site={pile.site} onChange={afterChange} />
        <div class="pile-drawing">
          <Mound pile={pile} depthM={pile.recipe?.depthM} cover={pile.recipe?.cover} large />
          <PositionLines pile={pile} />
          <BatchRuler pile={pile} />
        </div>
      </div>
      <Acts pile={pile} onChange={afterChange} />
      <History pile={pile} />
      <Recipe pile={pile} />
      <Limits pile={pile} onChange={afterChange} />
      <EvidenceList pile={pile} />
      {pile.batch && <FinishBatch pile={pile} onChange={afterChange} />}
    </div>
  );
}

/** What else the probes say, one line per place: damp, gas, age. */
function PositionLines({ pile }: { readonly pile: PileDetail }) {
  const { unit } = usePrefs();
  const nowMs = useHouseNow();
  const entries = positions.flatMap((position) =>
    pile.positions[position] ? [[position, pile.positions[position]] as const] : [],
  );
  const dots = dampWords(pile);
  if (entries.length === 0) {
    return (
      <p class="quiet">
        No probe sits here yet. <a href="/probes">Claim one for this pile</a>
      </p>
    );
  }
  return (
    <>
      <ul class="position-lines">
        {entries.map(([position, now]) => {
          const said = [
            now.moisturePct !== undefined && `moisture ${plainNumber(now.moisturePct, 0)} %`,
            now.humidityPct !== undefined && humidityWords(now.humidityPct),
            now.co2Ppm !== undefined && `CO₂ ${plainNumber(now.co2Ppm, 0)} ppm`,
            now.at
              ? `${now.silent ? 'silent, last heard' : 'heard'} ${ageWords(nowMs - Date.parse(now.at))}`
              : 'never heard',
          ].filter(Boolean);
          return (
            <li key={position}>
              <b>{capital(positionNames[position])}</b> {said.join(', ')}
            </li>
          );
        })}
      </ul>
      {dots && <p class="hint">{sentenceIn(unit, dots)}</p>}
    </>
  );
}

function Recipe({ pile }: { readonly pile: PileDetail }) {
  const { recipe } = pile;
  if (!recipe) return null;
  const lines: [string, string][] = [
    ['Made of', capital(materialNames[recipe.material])],
    ['Depth', `${Math.round(recipe.depthM * 100)} cm`],
    ...(recipe.massKg === undefined ? [] : ([['Mass as laid', `${recipe.massKg} kg`]] as [string, string][])),
    ...(recipe.moistureFrac === undefined
      ? []
      : ([['Moisture as laid', `${Math.round(recipe.moistureFrac * 100)} %, wet basis`]] as [string, string][])),
    ...(recipe.doseFrac === undefined
      ? []
      : ([['Culture mixed in', `${plainNumber(recipe.doseFrac * 100, 1)} % of the wet mass`]] as [string, string][])),
    ['Cover', capital(coverNames[recipe.cover])],
  ];
  return (
    <Part id="recipe" title="What was laid">
      <dl class="ledger">
        {lines.map(([what, value]) => (
          <div key={what}>
            <dt>{what}</dt>
            <dd>
              <b>{value}</b>
            </dd>
          </div>
        ))}
      </dl>
    </Part>
  );
}
