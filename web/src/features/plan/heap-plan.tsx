/** Several materials as one heap: by mass or by volume, water, ground taken and covered, dates. */
import { useState } from 'preact/hooks';
import type { MixPlan } from '../../../../core/plan/mix.ts';
import type { PlanUnits } from '../../../../shared/contracts/plan.ts';
import { toInstant } from '../../../../shared/contracts/time.ts';
import { measureText } from '../../../../shared/measure.ts';
import { stages } from '../../../../shared/names.ts';
import { useReader } from '../../data/live/use-installation.ts';
import { shortDay } from '../../ui/format/local-time.ts';
import { plainNumber } from '../../ui/format/temperature.ts';
import { capital, stageNames } from '../../ui/format/words.ts';
import { Choice, TextField } from '../../ui/parts/forms.tsx';
import { MeasureField, useRestated } from '../../ui/parts/measure-field.tsx';
import { May } from '../../ui/parts/only-for.tsx';
import { emptyHeap, emptyPortion, type HeapDraft, heapMaterial, layAddress, planHeap } from './plan-asks.ts';
import { Figures, PlanResult } from './plan-result.tsx';
import { useSayPlan } from './plan-say.ts';
import { PortionFields } from './portion-fields.tsx';
import { Shares } from './shares-drawing.tsx';

const wantedKinds = { mass: 'massKg', volume: 'volumeL', area: 'areaM2' } as const;

export function HeapPlan() {
  const [draft, setDraft] = useState<HeapDraft>(emptyHeap);
  const reader = useReader();
  const units = useRestated(draft, setDraft, (was, turn) => ({
    ...was,
    starter: turn('volumeL', was.starter),
    depth: turn('depthM', was.depth),
    width: turn('lengthM', was.width),
    air: turn('tempC', was.air),
    wantedAmount: was.wanted === 'as-given' ? was.wantedAmount : turn(wantedKinds[was.wanted], was.wantedAmount),
    spreadAmount: turn(was.spread === 'rate' ? 'rateKgM2' : 'depthM', was.spreadAmount),
    portions: was.portions.map((one) => ({
      ...one,
      amount: turn(was.by === 'volume' ? 'volumeL' : 'massKg', one.amount),
      weight: turn('densityKgM3', one.weight),
    })),
  }));
  const change = (part: Partial<HeapDraft>) => setDraft({ ...draft, ...part });
  const planned = planHeap(draft, units, reader.timeZone);
  const wrong = (pointer: string) => planned.errors.get(pointer);
  return (
    <div class="plan-two">
      <form class="form" onSubmit={(event) => event.preventDefault()}>
        <Choice
          legend="You measure by"
          value={draft.by}
          choices={[
            ['mass', 'Mass, on scales'],
            ['volume', 'Volume, in buckets'],
          ]}
          onValue={(by) => change({ by })}
        />
        <p class="hint">
          Half and half by mass is another heap than half and half by volume: soil weighs six times what bran does.
        </p>
        {draft.by !== '' &&
          draft.portions.map((portion, index) => (
            <PortionFields
              key={index}
              index={index}
              by={draft.by === 'volume' ? 'volume' : 'mass'}
              portion={portion}
              wrong={wrong}
              onPortion={(part) =>
                change({ portions: draft.portions.map((one, at) => (at === index ? { ...one, ...part } : one)) })
              }
              onRemove={
                draft.portions.length > 1
                  ? () => change({ portions: draft.portions.filter((_, at) => at !== index) })
                  : undefined
              }
            />
          ))}
        {draft.by !== '' && draft.portions.length < 20 && (
          <button type="button" onClick={() => change({ portions: [...draft.portions, emptyPortion] })}>
            One more material
          </button>
        )}
        <div class="field-row">
          <MeasureField
            label="Moisture wanted"
            unitNote="wet basis"
            kind="share"
            value={draft.target}
            onValue={(target) => change({ target })}
            hint="Empty: no water is worked out."
            error={wrong('/moistureTarget')}
          />
          <MeasureField
            label="Diluted starter that goes in"
            kind="volumeL"
            value={draft.starter}
            onValue={(starter) => change({ starter })}
            error={wrong('/starterL')}
          />
        </div>
        <Choice
          legend="Stage"
          value={draft.stage}
          choices={stages.map((stage) => [stage, capital(stageNames[stage])] as const)}
          onValue={(stage) => change({ stage })}
        />
        <div class="field-row">
          <MeasureField
            label="Depth of the heap"
            kind="depthM"
            value={draft.depth}
            onValue={(depth) => change({ depth })}
            hint="Empty: the most the stage allows."
            error={wrong('/depthM')}
          />
          <MeasureField
            label="Width it may have"
            kind="lengthM"
            value={draft.width}
            onValue={(width) => change({ width })}
            error={wrong('/widthM')}
          />
        </div>
        <SpreadFields draft={draft} change={change} wrong={wrong} />
        <div class="field-row">
          <TextField
            label="Laid on"
            type="datetime-local"
            hint="Gives the dates of checks and turns."
            value={draft.startAt}
            onValue={(startAt) => change({ startAt })}
            error={wrong('/startAt')}
          />
          <MeasureField
            label="Air you expect"
            kind="tempC"
            value={draft.air}
            onValue={(air) => change({ air })}
            hint="Tells a warm course from a cool one."
            error={wrong('/airC')}
          />
        </div>
      </form>
      <PlanResult
        planned={planned}
        waitsFor={
          draft.by === '' ? 'Say first whether you measure by mass or by volume.' : 'Say how much of each material.'
        }
      >
        {(answer) => <HeapFigures answer={answer} draft={draft} units={units} />}
      </PlanResult>
    </div>
  );
}

interface SpreadProps {
  readonly draft: HeapDraft;
  readonly change: (part: Partial<HeapDraft>) => void;
  readonly wrong: (pointer: string) => string | undefined;
}

function SpreadFields({ draft, change, wrong }: SpreadProps) {
  return (
    <details class="more">
      <summary>For so much ground, or so much in all</summary>
      <Choice
        legend="Spread on beds"
        value={draft.spread}
        choices={[
          ['none', 'Not yet'],
          ['rate', 'At a rate'],
          ['depth', 'At a depth'],
        ]}
        onValue={(spread) => change({ spread, spreadAmount: '' })}
      />
      {draft.spread !== 'none' && (
        <MeasureField
          label={draft.spread === 'rate' ? 'Rate' : 'Depth on the bed'}
          kind={draft.spread === 'rate' ? 'rateKgM2' : 'depthM'}
          value={draft.spreadAmount}
          onValue={(spreadAmount) => change({ spreadAmount })}
          error={wrong(draft.spread === 'rate' ? '/spread/rateKgM2' : '/spread/depthM')}
        />
      )}
      <Choice
        legend="Make the recipe larger or smaller"
        value={draft.wanted}
        choices={[
          ['as-given', 'As given'],
          ['mass', 'To a mass'],
          ['volume', 'To a volume'],
          ['area', 'For an area'],
        ]}
        onValue={(wanted) => change({ wanted, wantedAmount: '' })}
      />
      {draft.wanted !== 'as-given' && (
        <MeasureField
          label="So much is wanted"
          kind={wantedKinds[draft.wanted]}
          value={draft.wantedAmount}
          onValue={(wantedAmount) => change({ wantedAmount })}
          hint={draft.wanted === 'area' ? 'Say above at which rate or depth it is spread.' : undefined}
          error={wrong(`/wanted/${wantedKinds[draft.wanted]}`) ?? wrong('/spread')}
        />
      )}
    </details>
  );
}

function HeapFigures({
  answer,
  draft,
  units,
}: {
  readonly answer: MixPlan;
  readonly draft: HeapDraft;
  readonly units: PlanUnits;
}) {
  const reader = useReader();
  const say = useSayPlan();
  const { laid, water, footprint, spread } = answer;
  const text = (kind: Parameters<typeof measureText>[0], value: number) => measureText(kind, value, units, 3);
  return (
    <>
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
      <Shares {...laid} floor={answer.freeAirSpaceFloor} />
      <Figures
        rows={[
          [
            'The heap as laid',
            text('massKg', laid.massKg),
            laid.volumeL === null ? undefined : text('volumeL', laid.volumeL),
          ] as const,
          ['Its moisture', text('share', laid.moisture), 'wet basis'] as const,
          ...(answer.carbonNitrogen === null
            ? []
            : [['Carbon to nitrogen', `${plainNumber(answer.carbonNitrogen, 0)}:1`] as const]),
          ...(footprint
            ? [
                [
                  'Ground it takes',
                  `${text('lengthM', footprint.widthM)} by ${text('lengthM', footprint.lengthM)}`,
                  `${text('depthM', footprint.depthM)} deep, ${text('areaM2', footprint.areaM2)}`,
                ] as const,
              ]
            : []),
          ...(spread
            ? [
                [
                  'Bed it covers',
                  text('areaM2', spread.areaM2),
                  `${text('rateKgM2', spread.rateKgM2)}${spread.depthM === null ? '' : `, ${text('depthM', spread.depthM)} deep`}`,
                ] as const,
              ]
            : []),
        ].map(([what, value, note]) => (note === undefined ? [what, value] : [what, value, note]))}
      />
      {answer.dates.length > 0 && (
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
      )}
      <May to="keeper">
        <p class="plan-on">
          <a
            class="button"
            href={layAddress({
              stage: draft.stage,
              material: heapMaterial(answer.materials),
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
      </May>
    </>
  );
}
