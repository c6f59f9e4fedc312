/** What a heap comes to: what goes in, how it lies, and when to look after it. */
import type { MixPlan } from '../../../../core/plan/mix.ts';
import type { PlanUnits } from '../../../../shared/contracts/plan.ts';
import { toInstant } from '../../../../shared/contracts/time.ts';
import { measureText } from '../../../../shared/measure.ts';
import { useReader } from '../../data/live/use-installation.ts';
import { shortDay } from '../../ui/format/local-time.ts';
import { plainNumber } from '../../ui/format/temperature.ts';
import { capital } from '../../ui/format/words.ts';
import { May } from '../../ui/parts/only-for.tsx';
import { type HeapDraft, heapMaterial, layAddress } from './plan-asks.ts';
import { Figures } from './plan-result.tsx';
import { useSayPlan } from './plan-say.ts';
import { Shares } from './shares-drawing.tsx';
import './plan.css';

type Text = (kind: Parameters<typeof measureText>[0], value: number) => string;

interface HeapFiguresProps {
  readonly answer: MixPlan;
  readonly draft: HeapDraft;
  readonly units: PlanUnits;
}

export function HeapFigures({ answer, draft, units }: HeapFiguresProps) {
  const text: Text = (kind, value) => measureText(kind, value, units, 3);
  return (
    <>
      <WhatGoesIn answer={answer} text={text} />
      <Shares {...answer.laid} floor={answer.freeAirSpaceFloor} />
      <Figures rows={figureRows(answer, text)} />
      {answer.dates.length > 0 && <WhenToLook answer={answer} />}
      <May to="keeper">
        <LayIt answer={answer} draft={draft} />
      </May>
    </>
  );
}

function WhatGoesIn({ answer, text }: { readonly answer: MixPlan; readonly text: Text }) {
  const say = useSayPlan();
  const { water } = answer;
  return (
    <table class="portions">
      <caption>
        {answer.times === 1 ? 'What goes in' : `What goes in, ${plainNumber(answer.times, 2)} times the recipe`}
      </caption>
      <thead>
        <tr>
          <th scope="col">Material</th>
          <th scope="col">Mass</th>
          <th scope="col">Volume</th>
        </tr>
      </thead>
      <tbody>
        {answer.materials.map((one, index) => (
          <tr key={`${index}-${one.material}`}>
            <th scope="row">{capital(say(one.name))}</th>
            <td>{text('massKg', one.massKg)}</td>
            <td>{one.volumeL === null ? 'not known' : text('volumeL', one.volumeL)}</td>
          </tr>
        ))}
        {water && water.starterKg > 0 && (
          <tr>
            <th scope="row">Diluted starter</th>
            <td>{text('massKg', water.starterKg)}</td>
            <td>{text('volumeL', water.starterKg)}</td>
          </tr>
        )}
        {water && water.waterKg > 0 && (
          <tr>
            <th scope="row">Water, of which first {text('volumeL', water.firstPortionKg)}</th>
            <td>{text('massKg', water.waterKg)}</td>
            <td>{text('volumeL', water.waterKg)}</td>
          </tr>
        )}
      </tbody>
    </table>
  );
}

type FigureRow = readonly [what: string, value: string, note?: string];

function figureRows({ laid, carbonNitrogen, footprint, spread }: MixPlan, text: Text): FigureRow[] {
  const { massKg, volumeL, moisture } = laid;
  const rows: FigureRow[] = [
    volumeL === null
      ? ['The heap as laid', text('massKg', massKg)]
      : ['The heap as laid', text('massKg', massKg), text('volumeL', volumeL)],
    ['Its moisture', text('share', moisture), 'wet basis'],
  ];
  if (carbonNitrogen !== null) rows.push(['Carbon to nitrogen', `${plainNumber(carbonNitrogen, 0)}:1`]);
  if (footprint)
    rows.push([
      'Ground it takes',
      `${text('lengthM', footprint.widthM)} by ${text('lengthM', footprint.lengthM)}`,
      `${text('depthM', footprint.depthM)} deep, ${text('areaM2', footprint.areaM2)}`,
    ]);
  if (spread) {
    const deep = spread.depthM === null ? '' : `, ${text('depthM', spread.depthM)} deep`;
    rows.push(['Bed it covers', text('areaM2', spread.areaM2), `${text('rateKgM2', spread.rateKgM2)}${deep}`]);
  }
  return rows;
}

function WhenToLook({ answer }: { readonly answer: MixPlan }) {
  const reader = useReader();
  const say = useSayPlan();
  return (
    <>
      <h3 class="sub-head">When to look, turn and smell</h3>
      <ol class="diary plan-dates">
        {answer.dates.map((date) => (
          <li key={`${date.atMs}-${date.kind}`}>
            <time dateTime={toInstant(date.atMs)}>
              {shortDay(date.atMs, reader)}
              {date.untilMs !== null && ` to ${shortDay(date.untilMs, reader)}`}
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
  return (
    <p class="plan-on">
      <a
        class="button"
        href={layAddress({
          stage: draft.stage,
          material: heapMaterial(materials),
          massKg: laid.massKg,
          moistureFrac: laid.moisture,
          // A depth that the plan took as usual is no fact of this bed.
          depthM: draft.depth.trim() === '' ? undefined : footprint?.depthM,
          laidAt: draft.startAt,
        })}
      >
        Lay a pile with these figures
      </a>
    </p>
  );
}
