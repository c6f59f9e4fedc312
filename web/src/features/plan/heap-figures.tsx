/** What a heap comes to: what goes in, how it lies, and when to look after it. */
import type { MixPlan } from '../../../../core/plan/mix.ts';
import type { PlanUnits } from '../../../../shared/contracts/plan.ts';
import { toInstant } from '../../../../shared/contracts/time.ts';
import { figuresMeasured } from '../../../../shared/figures-measured.ts';
import { measureText } from '../../../../shared/measure.ts';
import { useReader } from '../../data/live/use-installation.ts';
import { shortDay } from '../../ui/format/local-time.ts';
import { plainNumber } from '../../ui/format/temperature.ts';
import { capital } from '../../ui/format/words.ts';
import { May } from '../../ui/parts/only-for.tsx';
import { heapMaterial, layAddress } from './plan-asks.ts';
import { type HeapDraft, stageOf } from './plan-draft.ts';
import { Figures } from './plan-result.tsx';
import { useSayPlan } from './plan-say.ts';
import { Shares } from './shares-drawing.tsx';
import { type PlanWords, usePlanWords } from './use-plan-words.ts';
import './plan.css';

type Amount = (kind: Parameters<typeof measureText>[0], value: number) => string;

interface HeapFiguresProps {
  readonly answer: MixPlan;
  readonly draft: HeapDraft;
  readonly units: PlanUnits;
}

export function HeapFigures({ answer, draft, units }: HeapFiguresProps) {
  const words = usePlanWords();
  const amount: Amount = (kind, value) => measureText(kind, value, units, figuresMeasured(kind, value));
  return (
    <>
      <WhatGoesIn answer={answer} amount={amount} />
      <Shares {...answer.laid} floor={answer.freeAirSpaceFloor} />
      <Figures rows={figureRows(answer, amount, words)} />
      {answer.dates.length > 0 && <WhenToLook answer={answer} />}
      <May to="keeper">
        <LayIt answer={answer} draft={draft} />
      </May>
    </>
  );
}

function WhatGoesIn({ answer, amount }: { readonly answer: MixPlan; readonly amount: Amount }) {
  const { text } = usePlanWords();
  const say = useSayPlan();
  const { water } = answer;
  return (
    <table class="portions">
      <caption>
        {text('page-plan.goes-in', { isAsGiven: answer.times === 1, timesText: plainNumber(answer.times, 2) })}
      </caption>
      <thead>
        <tr>
          <th scope="col">{text('page-plan.goes-in.material')}</th>
          <th scope="col">{text('page-plan.goes-in.mass')}</th>
          <th scope="col">{text('page-plan.goes-in.volume')}</th>
        </tr>
      </thead>
      <tbody>
        {answer.materials.map((one, index) => (
          <tr key={`${index}-${one.material}`}>
            <th scope="row">{capital(say(one.name))}</th>
            <td>{amount('massKg', one.massKg)}</td>
            <td>{one.volumeL === null ? text('page-plan.goes-in.not-known') : amount('volumeL', one.volumeL)}</td>
          </tr>
        ))}
        {water && water.starterKg > 0 && (
          <tr>
            <th scope="row">{text('page-plan.goes-in.starter')}</th>
            <td>{amount('massKg', water.starterKg)}</td>
            <td>{amount('volumeL', water.starterKg)}</td>
          </tr>
        )}
        {water && water.waterKg > 0 && (
          <tr>
            <th scope="row">
              {text('page-plan.goes-in.water', { firstText: amount('volumeL', water.firstPortionKg) })}
            </th>
            <td>{amount('massKg', water.waterKg)}</td>
            <td>{amount('volumeL', water.waterKg)}</td>
          </tr>
        )}
      </tbody>
    </table>
  );
}

type FigureRow = readonly [what: string, value: string, note?: string];

function figureRows(
  { laid, carbonNitrogen, footprint, spread }: MixPlan,
  amount: Amount,
  { text }: PlanWords,
): FigureRow[] {
  const { massKg, volumeL, moisture } = laid;
  const rows: FigureRow[] = [
    volumeL === null
      ? [text('page-plan.figure.laid'), amount('massKg', massKg)]
      : [text('page-plan.figure.laid'), amount('massKg', massKg), amount('volumeL', volumeL)],
    [text('page-plan.figure.moisture'), amount('share', moisture), text('page-plan.wet-basis')],
  ];
  if (carbonNitrogen !== null)
    rows.push([text('page-plan.figure.carbon-nitrogen'), `${plainNumber(carbonNitrogen, 0)}:1`]);
  if (footprint)
    rows.push([
      text('page-plan.figure.ground'),
      text('page-plan.figure.ground.sides', {
        widthText: amount('lengthM', footprint.widthM),
        lengthText: amount('lengthM', footprint.lengthM),
      }),
      text('page-plan.figure.ground.deep', {
        depthText: amount('depthM', footprint.depthM),
        areaText: amount('areaM2', footprint.areaM2),
      }),
    ]);
  if (spread) {
    const { areaM2, rateKgM2, depthM } = spread;
    const rate = text('page-plan.figure.bed.rate', {
      rateText: amount('rateKgM2', rateKgM2),
      isDeep: depthM !== null,
      depthText: depthM === null ? '' : amount('depthM', depthM),
    });
    rows.push([text('page-plan.figure.bed'), amount('areaM2', areaM2), rate]);
  }
  return rows;
}

function WhenToLook({ answer }: { readonly answer: MixPlan }) {
  const { text } = usePlanWords();
  const reader = useReader();
  const say = useSayPlan();
  return (
    <>
      <h3 class="sub-head">{text('page-plan.dates')}</h3>
      <ol class="diary plan-dates">
        {answer.dates.map((date) => (
          <li key={`${date.atMs}-${date.kind}`}>
            <time dateTime={toInstant(date.atMs)}>
              {date.untilMs === null
                ? shortDay(date.atMs, reader)
                : text('page-plan.dates.until', {
                    fromText: shortDay(date.atMs, reader),
                    untilText: shortDay(date.untilMs, reader),
                  })}
            </time>
            <p>
              {say(date.says)}
              <span class="origin">{say(date.origin)}</span>
            </p>
          </li>
        ))}
      </ol>
    </>
  );
}

function LayIt({ answer: { laid, footprint, materials }, draft }: Pick<HeapFiguresProps, 'answer' | 'draft'>) {
  const { text } = usePlanWords();
  return (
    <p class="plan-on">
      <a
        class="button"
        href={layAddress({
          stage: stageOf(draft),
          material: heapMaterial(materials),
          massKg: laid.massKg,
          moistureFrac: laid.moisture,
          // A depth that the plan took as usual is no fact of this bed.
          depthM: draft.depth.trim() === '' ? undefined : footprint?.depthM,
          laidAt: draft.startAt,
        })}
      >
        {text('page-plan.lay-it')}
      </a>
    </p>
  );
}
